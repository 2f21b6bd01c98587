import type { BackgroundReading } from "./clean-air.ts";
import type { BackgroundPrior } from "./decay-model.ts";
import { median } from "./median.ts";
import type { Readings } from "./readings.ts";

/** Under this natural loss the floor under a cleaner would be claimed to be nothing. */
const LEAST_NATURAL_PER_H = 0.05;

/** Level of the last max(5, 5 %) readings of a window: an upper bound of the floor it decays to. */
export function tailLevel({ values }: Readings): number {
  return Math.max(0, median(values.slice(Math.max(0, values.length - Math.max(5, Math.ceil(0.05 * values.length))))));
}

/** Natural decay with a reading of the background: C_bg ± max(30 % C_bg, s_q). */
export function naturalPriorFromReading(reading: BackgroundReading, readings: Readings): BackgroundPrior {
  const sd = Math.max(0.3 * reading.value, quantum(readings, reading.u));
  return () => ({ mean: reading.value, sd, perSource: 1 });
}

/**
 * Total decay with a reading: by mass balance C_bg = S/k_n before and S/k under the cleaner, so m = C_bg·k_n/max(k, k_n)
 * with SD max(m, s_q). A tail under 0.8 m contradicts the reading: then half the tail, and `inconsistent` says so.
 */
export function totalPriorFromReading(
  reading: BackgroundReading,
  naturalPerH: number,
  readings: Readings,
): { prior: BackgroundPrior; inconsistent: (kPerH: number) => boolean } {
  const kN = Math.max(LEAST_NATURAL_PER_H, naturalPerH);
  const tail = tailLevel(readings);
  const least = quantum(readings, reading.u);
  const floor = (kPerH: number) => (reading.value * kN) / Math.max(kPerH, kN);
  const prior = (kPerH: number) => {
    const m = floor(kPerH);
    if (tail < 0.8 * m) return { mean: tail / 2, sd: Math.max(tail / 2, least) };
    return { mean: m, sd: Math.max(m, least), ...slopes(reading.value, naturalPerH, kPerH) };
  };
  // A tail lower by less than the reading's own error contradicts nothing.
  const inconsistent = (kPerH: number) => tail < 0.8 * floor(kPerH) && floor(kPerH) - tail > 2 * least;
  return { prior, inconsistent };
}

/** Total decay without a reading: tail/2 ± max(tail/2, s_q). */
export function totalPriorFromTail(readings: Readings): BackgroundPrior {
  const half = tailLevel(readings) / 2;
  const sd = Math.max(half, quantum(readings));
  return () => ({ mean: half, sd });
}

/**
 * Total decay without a reading, once the natural decay was fitted: by mass balance its background B_n stands for the
 * reading, m = B_n·k_n/max(k, k_n), but never above what the tail allows; SD max(m, u(B_n)·k_n/k, s_q), at most the tail's.
 */
export function totalPriorFromNatural(
  natural: { readonly value: number; readonly u: number },
  naturalPerH: number,
  readings: Readings,
): BackgroundPrior {
  const kN = Math.max(LEAST_NATURAL_PER_H, naturalPerH);
  const fromTail = totalPriorFromTail(readings);
  const least = quantum(readings);
  return (kPerH) => {
    const tail = fromTail(kPerH);
    const share = kN / Math.max(kPerH, kN);
    const mean = Math.min(natural.value * share, tail.mean);
    const sd = Math.min(Math.max(mean, natural.u * share, least), tail.sd);
    return { mean, sd, ...(mean < tail.mean ? slopes(natural.value, naturalPerH, kPerH) : {}) };
  };
}

/** Slopes of m = B·k_n/max(k, k_n) along B and along k_n, held where k_n is under its least. */
function slopes(background: number, naturalPerH: number, kPerH: number) {
  const k = Math.max(kPerH, LEAST_NATURAL_PER_H, naturalPerH);
  const free = naturalPerH > LEAST_NATURAL_PER_H && kPerH > naturalPerH;
  return { perSource: Math.max(LEAST_NATURAL_PER_H, naturalPerH) / k, perNaturalPerH: free ? background / k : 0 };
}

/** Natural decay without a reading: b/2 ± max(b/2, s_q), b = min(tail of the total·k_t/k_n, 20 % of its own level). */
export function naturalPriorFromTotal(
  readings: Readings,
  total: { tail: number; kPerH: number } | null,
): BackgroundPrior {
  const own = 0.2 * median(readings.values.slice(0, 5));
  const least = quantum(readings);
  return (kPerH) => {
    const carried = total === null ? Infinity : (total.tail * total.kPerH) / Math.max(LEAST_NATURAL_PER_H, kPerH);
    const half = Math.max(0, Math.min(carried, own)) / 2;
    return { mean: half, sd: Math.max(half, least) };
  };
}

/**
 * s_q: the step's q/√12 or u of the reading, whichever is more, but never nothing: a background read as exactly 0 by a
 * counter without a visible step is still not known exactly. A reading of counts already holds what their step hides.
 */
function quantum({ stepQ, values, quantity }: Readings, u = 0): number {
  const highest = values.reduce((a, b) => Math.max(a, b), 0);
  const step = quantity !== "mass" && u > 0 ? 0 : stepQ / Math.sqrt(12);
  return Math.max(step, u, 1e-6 * highest);
}
