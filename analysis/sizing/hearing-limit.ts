/** Level that may be borne for a working day of 8 h, dB(A), after the recommendation below. */
export const LIMIT_DB = 85;
const LIMIT_HOURS = 8;
const EXCHANGE_DB = 3;

/**
 * Time a day T = 8 h / 2^((L − 85)/3) that NIOSH recommends as the limit at a level L [dB(A)]. NIOSH 1998, Criteria for a
 * Recommended Standard: Occupational Noise Exposure (publication 98-126).
 */
export function allowedHours(levelDb: number): number {
  return LIMIT_HOURS / 2 ** ((levelDb - LIMIT_DB) / EXCHANGE_DB);
}
