import { type BackgroundPrior, type DecayData, type DecayParameters, decayColumns, dot } from "./decay-model.ts";
import { type DecayNoise, whiten } from "./decay-noise.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";

/** A decay as it was fitted: what further questions are asked of. */
export interface FittedShape {
  readonly data: DecayData;
  readonly at: DecayParameters;
  readonly noise: DecayNoise;
  readonly prior: BackgroundPrior;
}

export interface AddedColumn {
  /** Its coefficient with u. */
  readonly value: number;
  readonly u: number;
  /** What k of the fit without it is off for one unit of it [1/h]. */
  readonly kPerUnit: number;
}

/**
 * How much the readings want of a departure that multiplies C − B by 1 + c·shape(t): generalised least squares with A, k, B (and
 * its prior) beside it and the noise as fitted. c = xᵀM r/xᵀM x, u = 1/√xᵀM x, M = W − WJ(JᵀWJ)⁻¹JᵀW; leaving it out moves k by
 * the second element of (JᵀWJ)⁻¹JᵀWx for each unit. Null where the readings cannot tell it from the fit's own parameters.
 */
export function addColumn(
  { data, at, noise, prior }: FittedShape,
  shape: (tHours: number) => number,
): AddedColumn | null {
  const { expected, columns } = decayColumns(data, at);
  const grid = { ...data, expected };
  const x = data.tHours.map((t, i) => shape(t) * columns[1][i]!);
  const [r, ...j] = whiten(noise, grid, columns).columns as [Float64Array, Float64Array, Float64Array, Float64Array];
  const extra = whiten(noise, grid, [x]).columns[0]!;
  const { mean, sd } = prior(at.kPerH);
  const beliefs = [0, 0, 1 / sd ** 2];
  // A background at its bound cannot give way any further.
  const used = at.background > 0 ? j : j.slice(0, 2);
  const inverse = invertPositiveDefinite(
    used.map((a, p) => used.map((b, q) => dot(a, b) + (p === q ? beliefs[p]! : 0))),
  )?.inverse;
  if (inverse === undefined) return null;
  const left = used.map((a, p) => dot(a, r) + (mean - at.background) * beliefs[p]!);
  const shared = used.map((a) => dot(a, extra));
  const moved = inverse.map((row) => dot(row, shared));
  const information = dot(extra, extra) - dot(moved, shared);
  if (!(information > 1e-9 * dot(extra, extra))) return null;
  return {
    value: (dot(extra, r) - dot(moved, left)) / information,
    u: 1 / Math.sqrt(information),
    kPerUnit: moved[1]!,
  };
}
