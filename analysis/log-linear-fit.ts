import { AnalysisError } from "./analysis-error.ts";
import { exp } from "./exp.ts";
import { log } from "./log.ts";

export interface LogLinearFit {
  readonly kPerH: number;
  readonly uPerH: number;
  /** n − 2. */
  readonly dof: number;
  /** Fitted concentration at t = 0, above the background. */
  readonly amplitude: number;
}

/**
 * Ordinary line through ln(C − B) against time with a free intercept, B given: k = −slope [1/h],
 * s_k = √(s²/Σ(t−t̄)²), s² = RSS/(n−2). Readings at or below 5 % of the highest end it, as the NIST indoor-air
 * wildfire-smoke study ended its fits. It takes the residuals as independent, which real ones are not: shown for
 * comparison, never used for an interval.
 * @throws AnalysisError "too-short"
 */
export function logLinearFit(tHours: ArrayLike<number>, values: ArrayLike<number>, background = 0): LogLinearFit {
  let highest = 0;
  for (let i = 0; i < values.length; i++) highest = Math.max(highest, values[i]! - background);
  const t: number[] = [];
  const ln: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const above = values[i]! - background;
    if (!(above > 0.05 * highest)) break;
    t.push(tHours[i]!);
    ln.push(log(above));
  }
  const n = t.length;
  if (n < 3) throw new AnalysisError("too-short");
  const tMean = mean(t);
  const lnMean = mean(ln);
  const stt = t.reduce((sum, x) => sum + (x - tMean) ** 2, 0);
  const slope = t.reduce((sum, x, i) => sum + (x - tMean) * (ln[i]! - lnMean), 0) / stt;
  const rss = ln.reduce((sum, y, i) => sum + (y - lnMean - slope * (t[i]! - tMean)) ** 2, 0);
  return {
    kPerH: -slope,
    uPerH: Math.sqrt(rss / (n - 2) / stt),
    dof: n - 2,
    amplitude: exp(lnMean - slope * tMean),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}
