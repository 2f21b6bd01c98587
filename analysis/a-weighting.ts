import { sumOfLevelsDb } from "./sound-level.ts";

/** A-weighting at the octave bands' nominal middles, Hz → dB. IEC 61672-1, table of design goals. */
export const A_WEIGHTING_DB: ReadonlyMap<number, number> = new Map([
  [63, -26.2],
  [125, -16.1],
  [250, -8.6],
  [500, -3.2],
  [1000, 0],
  [2000, 1.2],
  [4000, 1.0],
  [8000, -1.1],
]);

/**
 * A-weighted level [dB] of octave-band levels [dB], named by their nominal middle in Hz: 10·lg Σ 10^((L+A)/10). IEC 61672-1.
 * @throws RangeError for a band that is none of the table's
 */
export function aWeightedLevelDb(octaves: readonly { readonly hz: number; readonly levelDb: number }[]): number {
  if (octaves.length === 0) throw new RangeError("no octave band is given");
  return sumOfLevelsDb(
    octaves.map(({ hz, levelDb }) => {
      const weight = A_WEIGHTING_DB.get(hz);
      if (weight === undefined) throw new RangeError(`${hz} Hz is not the middle of a known octave band`);
      return levelDb + weight;
    }),
  );
}
