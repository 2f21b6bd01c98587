import type { FittedShape } from "./added-column.ts";
import { decayColumns } from "./decay-model.ts";
import { whiten } from "./decay-noise.ts";
import { tCdf } from "./student-t.ts";

/** Over so many lags whitened residuals are to have nothing in common. */
const MOST_LAGS = 8;

/**
 * Probability that whitened residuals z of a decay the fit describes hang together as much as these: Q = n(n+2)Σρₗ²/(n−l), ρₗ
 * their autocorrelations, is χ² of as many dof as lags (Ljung and Box 1978), here by the cube root's normal (Wilson and
 * Hilferty 1931). A memory is whitened away; cycles and steps are not. 1 where there are too few to say.
 */
export function residualsP({ data, at, noise }: FittedShape): number {
  const { expected, columns } = decayColumns(data, at);
  const z = whiten(noise, { ...data, expected }, columns).columns[0]!;
  const n = z.length;
  const lags = Math.min(MOST_LAGS, Math.floor(n / 4));
  if (lags < 3) return 1;
  const covariance = (lag: number) => {
    let sum = 0;
    for (let i = lag; i < n; i++) sum += z[i]! * z[i - lag]!;
    return sum;
  };
  const variance = covariance(0);
  if (!(variance > 0)) return 1;
  let q = 0;
  for (let lag = 1; lag <= lags; lag++) q += (n * (n + 2) * (covariance(lag) / variance) ** 2) / (n - lag);
  const spread = 2 / (9 * lags);
  return 1 - tCdf((Math.cbrt(q / lags) - (1 - spread)) / Math.sqrt(spread), Infinity);
}
