import type { Band, Finding, FindingCode } from "./analysis.ts";
import type { BandDecay } from "./counter-decays.ts";
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
  readonly between: { readonly u: number };
}

/** A finding's own size is known to about a quarter: GUM G.4.2 gives ν = 8. */
const DOF = 8;
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
    raise(
      "no-effect",
      "serious",
      "the decay with the cleaner on is no faster than the natural one",
      difference * volume,
    );
  }
  if (naturals.length === 0) {
    raise("assumed-natural-loss", "warning", "natural loss was not measured but assumed [1/h]", naturalPerH.value);
  }
  const otherDay = used.some(({ match }) => match?.source === "other_day");
  const conditionsDiffer = used.some(({ match }) => match && !match.sameConditions);
  const drift = Math.abs(OTHER_DAY * naturalPerH.value);
  if (otherDay) raise("natural-other-day", "warning", "natural loss was measured on another day", null, drift);
  if (conditionsDiffer) {
    const message = "mixing fan or ventilation differed between the runs";
    raise("conditions-differ", "warning", message, null, otherDay ? 0 : drift);
  }
  if (totals.some((d) => d.backgroundInconsistent)) {
    const message = "the concentration falls lower than the clean-air reading allows";
    raise("background-inconsistent", "warning", message);
  }

  const halvings = Math.min(...totals.map(({ fit }) => (fit.kPerH.value * fit.windowH) / Math.LN2));
  if (halvings < 2) raise("few-halvings", "warning", "the cleaner-on decay spans under two halvings", halvings);
  const fewest = Math.min(...[...totals, ...naturals].map(({ fit }) => fit.n));
  if (fewest < 12) raise("short-log", "warning", "under 12 readings in a decay: expect errors of 8–12 %", fewest);

  // Memory matters where it shows: an OU part that is small beside the white one has no time constant to speak of.
  const memory = Math.max(
    ...[...totals, ...naturals].map(({ fit: { noise, windowH } }) =>
      noise.sigma > noise.white ? noise.tauH / windowH : 0,
    ),
  );
  if (memory > 0.1) {
    const message = "readings stay off for over a tenth of the window: the interval may be too narrow";
    raise("long-memory", "serious", message, memory);
  }
  const uneven = unevenness(used, weights);
  if (uneven.uPerH > 0) {
    const message = "the two halves of a decay have different slopes";
    raise("uneven-decay", "warning", message, uneven.share, uneven.uPerH);
  }
  const coagulated = coagulation(used, weights);
  if (Math.abs(coagulated) > 0.005 * Math.abs(difference)) {
    const message = "particles are so many that they coagulate, which quickens the natural decay most [1/h, at least]";
    raise("coagulation", "warning", message, coagulated, Math.abs(coagulated));
  }
  if (kTotal > 30) {
    const message = "a strong unit in a small room: mixing and the counter limit what is measured [1/h]";
    raise("strong-unit", "warning", message, kTotal);
  }
  if ([...totals, ...naturals].some(({ window }) => window.afterCeiling)) {
    raise("at-ceiling", "note", "the counter stood at its ceiling: the decay begins where it left it");
  }
  const relativeVolume = trial.room.volumeM3.u / volume;
  if (relativeVolume >= 0.05) {
    raise("volume-estimated", "note", "the room's volume is known to 5 % or worse", relativeVolume);
  }
  const byHand = [...totals, ...naturals].find(({ window }) => window.byHand);
  if (byHand) {
    const message = "the submitter fixed a window of this result; the value is k of the automatic one [1/h]";
    raise("window-fixed-by-hand", "note", message, byHand.automaticKPerH);
  }
  if (between.u > 0) {
    const message = `the counters differ by more than their own uncertainties in ${band.name}`;
    raise("counters-spread", "warning", message, between.u * volume);
  }
  return raised;
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
