/** Limit of NIOSH: 85 dB(A) for 8 hours, and half the time for every 3 dB more. */
const LIMIT_DB = 85;
const LIMIT_HOURS = 8;
const EXCHANGE_DB = 3;
const LEVELS_DB = [85, 88, 91, 94, 97, 100];

/**
 * Time a day T = 8 h / 2^((L − 85)/3) that NIOSH recommends as the limit at a level L [dB(A)]. NIOSH 1998, Criteria for a
 * Recommended Standard: Occupational Noise Exposure (publication 98-126).
 */
export function allowedHours(levelDb: number): number {
  return LIMIT_HOURS / 2 ** ((levelDb - LIMIT_DB) / EXCHANGE_DB);
}

/** How long an ear may be in how much noise. */
export function NioshTable() {
  return (
    <table class="narrow-table">
      <caption>Longest time a day, NIOSH 1998 (85 dB(A) for 8 hours, halved for each 3 dB)</caption>
      <thead>
        <tr>
          <th scope="col">dB(A) at the ear</th>
          <th scope="col">Longest time a day</th>
        </tr>
      </thead>
      <tbody>
        {LEVELS_DB.map((level) => (
          <tr>
            <th scope="row">{level}</th>
            <td>{timeWords(allowedHours(level))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function timeWords(hours: number): string {
  return hours >= 1 ? `${hours}\u00a0h` : `${60 * hours}\u00a0min`;
}
