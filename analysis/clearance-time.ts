/**
 * Time until the fraction `removed` of an aerosol is gone at `airChangesPerHour` clean air changes, with perfect mixing and
 * no source: t = −60 ln(1 − removed)/ACH [min]. CDC/HICPAC Guidelines for Environmental Infection Control in Health-Care
 * Facilities (2003), Table B.1. @throws RangeError unless ACH > 0 and 0 ≤ removed < 1
 */
export function clearanceTimeMinutes(airChangesPerHour: number, removed: number): number {
  if (!(airChangesPerHour > 0)) throw new RangeError(`air changes are above 0 an hour, not ${airChangesPerHour}`);
  if (!(removed >= 0 && removed < 1)) throw new RangeError(`a fraction removed is from 0 to under 1, not ${removed}`);
  return (-60 * Math.log1p(-removed)) / airChangesPerHour;
}
