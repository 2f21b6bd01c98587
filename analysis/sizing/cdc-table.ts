/** A row of the table: air changes an hour, and the minutes until 99 and 99.9 % of what floats in the air are gone. */
export interface CdcRow {
  readonly airChangesPerH: number;
  readonly minutesTo99: number;
  readonly minutesTo999: number;
}

/** Where the table is printed. */
export const CDC_TABLE = {
  name: "Table B.1 of the CDC’s Guidelines for Environmental Infection Control in Health-Care Facilities (2003)",
  url: "https://www.cdc.gov/infection-control/hcp/environmental-control/appendix-b-air.html",
} as const;

/** As printed, in whole minutes; perfect mixing, no source. */
const ROWS: readonly CdcRow[] = (
  [
    [2, 138, 207],
    [4, 69, 104],
    [6, 46, 69],
    [8, 35, 52],
    [10, 28, 41],
    [12, 23, 35],
    [15, 18, 28],
    [20, 14, 21],
    [50, 6, 8],
  ] as const
).map(([airChangesPerH, minutesTo99, minutesTo999]) => ({ airChangesPerH, minutesTo99, minutesTo999 }));

/** The row of Table B.1 with the most air changes an hour that are not more than given ones; null under the first. */
export function cdcRowFor(airChangesPerH: number): CdcRow | null {
  return ROWS.findLast((row) => row.airChangesPerH <= airChangesPerH * (1 + 1e-9)) ?? null; // so that 300/60 is 5
}
