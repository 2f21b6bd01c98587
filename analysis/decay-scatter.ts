import type { FittedShape } from "./added-column.ts";
import { decayColumns } from "./decay-model.ts";
import { whiten } from "./decay-noise.ts";
import { exp } from "./exp.ts";
import { log } from "./log.ts";
import { tCdf } from "./student-t.ts";

/** Over so many lags whitened residuals are to have nothing in common, by the test and by their sum. */
const TESTED_LAGS = 8;
const SUMMED_SHARE = 1 / 8;

export interface Leftover {
  /** Probability that residuals with nothing in common look as much alike as these. */
  readonly p: number;
  /** Variance of their mean over that of independent ones: what u² of a slowly changing parameter falls short by. */
  readonly longRun: number;
}

/**
 * What correlation whitening has left in the residuals z of a decay, ρₗ at lag l. Q = n(n+2)Σρₗ²/(n−l) is χ² of as many dof as
 * lags (Ljung and Box 1978), here by the cube root's normal (Wilson and Hilferty 1931); 1 + 2Σ(1 − l/(L+1))ρₗ is the variance
 * of the mean (Newey and West 1987). A counter that averages leaves ρ₁ and a long-run variance near 1; what the fit misses
 * leaves both. Null where there are too few to say.
 */
export function leftoverCorrelation({ data, at, noise }: FittedShape): Leftover | null {
  const { expected, columns } = decayColumns(data, at);
  const z = whiten(noise, { ...data, expected }, columns).columns[0]!;
  const n = z.length;
  const lags = Math.min(TESTED_LAGS, Math.floor(n / 4));
  const covariance = (lag: number) => {
    let sum = 0;
    for (let i = lag; i < n; i++) sum += z[i]! * z[i - lag]!;
    return sum;
  };
  const variance = covariance(0);
  if (lags < 3 || !(variance > 0)) return null;
  let q = 0;
  for (let lag = 1; lag <= lags; lag++) q += (n * (n + 2) * (covariance(lag) / variance) ** 2) / (n - lag);
  const spread = 2 / (9 * lags);
  const summed = Math.max(lags, Math.floor(SUMMED_SHARE * n));
  let longRun = 1;
  for (let lag = 1; lag <= summed; lag++) longRun += (2 * (1 - lag / (summed + 1)) * covariance(lag)) / variance;
  return { p: 1 - tCdf((exp(log(q / lags) / 3) - (1 - spread)) / Math.sqrt(spread), Infinity), longRun };
}
