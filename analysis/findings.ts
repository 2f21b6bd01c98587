import type { Band, Finding, FindingCode } from "./analysis.ts";
import type { BandDecay } from "./counter-decays.ts";
import { ASSUMED_MEMORY_H } from "./decay-noise-fit.ts";
import type { Estimate } from "./estimate.ts";
import type { NaturalMatch } from "./natural-match.ts";
import type { Counter, Trial } from "./trial.ts";

/** What one counter says about a band. */
export interface CounterEvidence {
  readonly counter: Counter;
  readonly totals: readonly BandDecay[];
  readonly total: Estimate;
  /** Null where natural loss is assumed. */
  readonly match: NaturalMatch | null;
  readonly natural: Estimate;
  /** Of total and natural, 1/h²: the background both decays share. */
  readonly covariance: number;
}

export interface RaisedFinding {
  readonly finding: Finding;
  /** What it adds to u(k_total − k_natural) in 1/h, with its dof; 0 where it only informs. */
  readonly uPerH: number;
  readonly dof: number;
}

interface Combined {
  readonly totalPerH: Estimate;
  readonly naturalPerH: Estimate;
  readonly between: { readonly u: number; readonly significant: boolean };
}

/** A finding's own size is known to about a quarter: GUM G.4.2 gives ν = 8. */
const DOF = 8;
/**
 * Errors that last longer than this share of a window, and clearly longer than is assumed anyway, are seen too few times
 * to be known: simulated decays of 1800 s so flagged held the truth 88 % of the time. In a short window the share alone
 * says nothing: in decays of 150 s errors that last a quarter or a half of them were covered 99 % of the time.
 */
const MOST_MEMORY = 0.1;
/** Natural loss drifts by about this much from day to day (the method's figure). */
const OTHER_DAY = 0.15;

/** What a reader should know about a band's result, and what of it widens the interval. */
export function findingsOf(
  trial: Trial,
  band: Band,
  used: readonly CounterEvidence[],
  weights: readonly number[],
  { totalPerH, naturalPerH, between }: Combined,
): RaisedFinding[] {
  const raised: RaisedFinding[] = [];
  const volume = trial.room.volumeM3.value;
  const raise = (
    code: FindingCode,
    severity: Finding["severity"],
    message: string,
    value: number | null = null,
    uPerH = 0,
  ) => {
    const effectM3PerH = uPerH > 0 ? volume * uPerH : null;
    raised.push({ finding: { code, severity, message, value, effectM3PerH }, uPerH, dof: DOF });
  };
  const totals = used.flatMap((e) => e.totals);
  const naturals = used.flatMap((e) => e.match?.naturals ?? []);
  const kTotal = totalPerH.value;
  const difference = kTotal - naturalPerH.value;

  if (!(difference > 0)) {
    const message =
      "With the cleaner on, the air cleared no faster than without it: no effect can be shown. Check that it ran, and compare both decays in the same closed room.";
    raise("no-effect", "serious", message, difference * volume);
  }
  if (naturals.length === 0) {
    const message =
      "Natural loss was not measured, so a typical value (1/h) with a wide uncertainty was taken off. Log a decay with the cleaner off in the same room next time.";
    raise("assumed-natural-loss", "warning", message, naturalPerH.value);
  }
  const otherDay = used.some(({ match }) => match?.source === "other_day");
  const conditionsDiffer = used.some(({ match }) => match && !match.sameConditions);
  const drift = Math.abs(OTHER_DAY * naturalPerH.value);
  if (otherDay) {
    const message =
      "Natural loss was measured on another day, and rooms leak differently from day to day. Log both decays within twelve hours.";
    raise("natural-other-day", "warning", message, null, drift);
  }
  if (conditionsDiffer) {
    const message =
      "Mixing fan or ventilation differed between the runs, and both change the natural loss. Keep them alike in all runs of a test.";
    raise("conditions-differ", "warning", message, null, otherDay ? 0 : drift);
  }
  if (totals.some((d) => d.backgroundInconsistent)) {
    const message =
      "With the cleaner on, the readings fall lower than the clean-air reading allows. Log the clean air right before the aerosol, with the cleaner off and the room closed.";
    raise("background-inconsistent", "warning", message);
  }

  const halvings = Math.min(...totals.map(({ fit }) => (fit.kPerH.value * fit.windowH) / Math.LN2));
  if (halvings < 2) {
    const message =
      "The concentration halves less than twice in the decay with the cleaner on. Log longer, or start from more aerosol, for a narrower interval.";
    raise("few-halvings", "warning", message, halvings);
  }
  const fewest = Math.min(...[...totals, ...naturals].map(({ fit }) => fit.n));
  if (fewest < 12) {
    const message =
      "A decay has under 12 readings: expect errors of 8 to 12 %. Set the counter to a shorter interval, or log longer.";
    raise("short-log", "warning", message, fewest);
  }
  // Errors of the one fit are no news where the other decides the interval.
  const deciding = [
    ...(totalPerH.u > naturalPerH.u / 3 ? totals : []),
    ...(naturalPerH.u > totalPerH.u / 3 ? naturals : []),
  ];
  const memory = memoryShare(deciding);
  if (memory > MOST_MEMORY) {
    const message =
      "The readings swing about the fitted curve in waves longer than a tenth of the decay, so the interval may be too narrow. A fan that mixes the room, a steadier counter or a longer log helps.";
    raise("long-memory", "serious", message, memory);
  }
  const uneven = unevenness(used, weights);
  if (uneven.uPerH > 0) {
    const message =
      "A decay falls at another rate in its first half than in its second, and the interval is widened for it. Mix the room, keep the setting, and stop before other sources of dust show.";
    raise("uneven-decay", "warning", message, uneven.share, uneven.uPerH);
  }
  const coagulated = coagulation(used, weights);
  if (Math.abs(coagulated) > 0.005 * Math.abs(difference)) {
    const message =
      "There are so many particles that they stick together, which quickens the decays (1/h, at least) and mostly the natural one. Start from less aerosol.";
    raise("coagulation", "warning", message, coagulated, Math.abs(coagulated));
  }
  if (kTotal > 30) {
    const message =
      "The unit is strong for this room (1/h): mixing and the counter's own delay limit what can be measured. Test it in a larger room.";
    raise("strong-unit", "warning", message, kTotal);
  }
  if ([...totals, ...naturals].some(({ window }) => window.afterCeiling)) {
    const message =
      "The counter stood at its highest reading, so the decay begins only where it left it. Start from less aerosol to use the whole decay.";
    raise("at-ceiling", "note", message);
  }
  const relativeVolume = trial.room.volumeM3.u / volume;
  if (relativeVolume >= 0.05) {
    const message =
      "The room's volume is known to 5 % or worse, and the result is no better than that. Measure length, width and height.";
    raise("volume-estimated", "note", message, relativeVolume);
  }
  const byHand = [...totals, ...naturals].find(({ window }) => window.byHand);
  if (byHand) {
    const message =
      byHand.automaticKPerH === null
        ? "The submitter fixed a window of this result; the log shows no automatic one to compare it with."
        : "The submitter fixed a window of this result. The value is the rate (1/h) that the automatic window gives.";
    raise("window-fixed-by-hand", "note", message, byHand.automaticKPerH);
  }
  if (between.significant) {
    const message = `The counters differ by more than their own uncertainties in ${band.name}, and the interval is widened for it. Let them stand side by side and compare them in the same air.`;
    raise("counters-spread", "warning", message, between.u * volume);
  }
  return raised;
}

/** Longest memory as a share of its window, 0 where it hides behind white noise or is no longer than assumed. */
function memoryShare(decays: readonly BandDecay[]): number {
  const shares = decays.map(({ fit: { noise, windowH } }) =>
    noise.sigma > noise.white && noise.tauH > 2 * ASSUMED_MEMORY_H ? noise.tauH / windowH : 0,
  );
  return Math.max(0, ...shares);
}

/**
 * Bias of k_total − k_natural by coagulation, b = 3600·K·N̄ [1/h] of each decay, N̄ the mean number in 1/cm³ over its
 * window: a lower bound, for a counter does not see the smallest. K = 7·10⁻¹⁰ cm³/s (near 0.1 µm; computed).
 */
function coagulation(used: readonly CounterEvidence[], weights: readonly number[]): number {
  const perH = (decays: readonly BandDecay[]) => {
    const counted = decays.filter(({ readings }) => readings.quantity === "number");
    const means = counted.map(({ readings: { values } }) => values.reduce((a, b) => a + b, 0) / values.length);
    return means.reduce((sum, n) => sum + (3600 * 7e-10 * n) / means.length, 0);
  };
  return used.reduce((sum, e, i) => sum + weights[i]! * (perH(e.totals) - perH(e.match?.naturals ?? [])), 0);
}

/** Halves apart by more than 2u add |k₁−k₂|/√12; of several decays the mean square counts, totals and naturals both. */
function unevenness(used: readonly CounterEvidence[], weights: readonly number[]): { uPerH: number; share: number } {
  let variance = 0;
  let share = 0;
  used.forEach(({ totals, match }, i) => {
    for (const decays of [totals, match?.naturals ?? []]) {
      const apart = decays.map(({ fit }) => {
        if (fit.halves === null) return 0;
        const difference = Math.abs(fit.halves.firstPerH - fit.halves.secondPerH);
        if (!(difference > 2 * fit.halves.uDifference)) return 0;
        share = Math.max(share, difference / Math.max(Math.abs(fit.kPerH.value), 1e-9));
        return difference;
      });
      const meanSquare = apart.reduce((sum, d) => sum + d * d, 0) / Math.max(1, apart.length);
      variance += (weights[i]! ** 2 * meanSquare) / 12;
    }
  });
  return { uPerH: Math.sqrt(variance), share };
}
