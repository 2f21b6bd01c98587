import { cleanAirDeliveryRate } from "../../../../analysis/clean-air-delivery-rate.ts";
import { coverageFactor95 } from "../../../../analysis/estimate.ts";
import { log } from "../../../../analysis/log.ts";
import { type LogLinearFit, logLinearFit } from "../../../../analysis/log-linear-fit.ts";

/** An invented test, of few readings so that it can be followed on paper: t in min, counts above the background. */
export const READINGS: Record<"tMinutes" | "on" | "off", readonly number[]> = {
  tMinutes: [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20],
  on: [30300, 24074, 20106, 15658, 12951, 10603, 8425, 6898, 5703, 4396, 3710],
  off: [30060, 29642, 29435, 29113, 28737, 28622, 28253, 27944, 27749, 27363, 27145],
};

const VOLUME_M3 = { value: 30, u: 0.3, dof: Infinity };

/** One line through ln C, with the sums it is made of: t in min. */
export interface LineOnPaper {
  readonly lnC: readonly number[];
  readonly tMean: number;
  /** Σ(t−t̄)² [min²], Σ(t−t̄)·ln C [min] and the sum of the squared residuals. */
  readonly sumTt: number;
  readonly sumTy: number;
  readonly rss: number;
  readonly fit: LogLinearFit;
}

/** The test above, worked out by the functions that every trial goes through, but for the fit: the ordinary line. */
export function pinnedExample() {
  const on = lineOnPaper(READINGS.on);
  const off = lineOnPaper(READINGS.off);
  const estimate = ({ fit }: LineOnPaper) => ({ value: fit.kPerH, u: fit.uPerH, dof: fit.dof });
  const rate = cleanAirDeliveryRate(VOLUME_M3, {
    totalPerH: estimate(on),
    naturalPerH: estimate(off),
    covariance: 0,
    others: [],
  });
  const { u, dof } = rate.cadrM3PerH;
  const factor = coverageFactor95(dof);
  return { volumeM3: VOLUME_M3, on, off, rate, factor, expandedM3PerH: factor * u };
}

function lineOnPaper(counts: readonly number[]): LineOnPaper {
  const t = READINGS.tMinutes;
  const lnC = counts.map(log);
  const tMean = t.reduce((sum, x) => sum + x, 0) / t.length;
  const sumTt = t.reduce((sum, x) => sum + (x - tMean) ** 2, 0);
  const sumTy = t.reduce((sum, x, i) => sum + (x - tMean) * lnC[i]!, 0);
  const fit = logLinearFit(
    t.map((minutes) => minutes / 60),
    counts,
  );
  return { lnC, tMean, sumTt, sumTy, rss: fit.dof * (sumTt / 3600) * fit.uPerH ** 2, fit };
}
