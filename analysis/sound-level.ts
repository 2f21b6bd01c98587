import type { Estimate } from "./estimate.ts";
import { welchSatterthwaite } from "./welch-satterthwaite.ts";

/**
 * Level of several sounds at once [dB]: 10·lg Σ 10^(L/10). Energies add, decibels do not; sources are taken as
 * incoherent. ISO 3744 (definition of the level); 60 + 57 = 61.764.
 */
export function sumOfLevelsDb(levelsDb: readonly number[]): number {
  const highest = Math.max(...levelsDb); // taken out first, so that no power overflows
  return highest + 10 * Math.log10(levelsDb.reduce((sum, level) => sum + 10 ** ((level - highest) / 10), 0));
}

/** Level of n equal units at one place [dB]: L + 10·lg n. */
export function levelOfUnitsDb(levelDb: number, units: number): number {
  return levelDb + 10 * Math.log10(units);
}

/**
 * Level at the distance r of a source that has levelAt1mDb at 1 m [dB]: L − 20·lg(r/1 m), −6.02 dB per doubling. Point
 * source in a free field; indoors it falls less, so that the level far away is underrated.
 */
export function levelAtDistanceDb(levelAt1mDb: number, distanceM: number): number {
  return levelAt1mDb - 20 * Math.log10(distanceM);
}

/** L_W − L_p over a hemisphere of radius r [dB]: 10·lg(2πr²/1 m²), 7.982 at 1 m. ISO 3744, source on a reflecting floor. */
export function hemisphereDb(distanceM = 1): number {
  return 10 * Math.log10(2 * Math.PI * distanceM ** 2);
}

/**
 * Energy mean of several readings of one source [dB]: 10·lg(Σ 10^(L/10)/n). Their own u (meter, distance, room) are one
 * error that all share and do not average out: Σ wᵢuᵢ, w the shares of energy. The scatter adds (10/ln 10)·s_E/(Ē√n) with
 * n − 1 dof. JCGM 100:2008 eq. 10 and 16, 4.2.3, G.2b.
 */
export function meanLevel(levels: readonly Estimate[]): Estimate {
  const n = levels.length;
  if (n === 1) return levels[0]!;
  const highest = Math.max(...levels.map(({ value }) => value));
  const energies = levels.map(({ value }) => 10 ** ((value - highest) / 10));
  const mean = energies.reduce((sum, e) => sum + e, 0) / n;
  const shared = levels.reduce((sum, { u }, i) => sum + (energies[i]! / (n * mean)) * u, 0);
  const spread = Math.sqrt(energies.reduce((sum, e) => sum + (e - mean) ** 2, 0) / (n - 1));
  const scatter = ((10 / Math.LN10) * spread) / (mean * Math.sqrt(n));
  const dof = Math.min(...levels.map((level) => level.dof));
  const combined = welchSatterthwaite([
    { u: shared, dof },
    { u: scatter, dof: n - 1 },
  ]);
  return { value: highest + 10 * Math.log10(mean), ...combined };
}
