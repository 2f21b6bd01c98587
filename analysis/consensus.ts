import type { Estimate } from "./estimate.ts";
import { welchSatterthwaite } from "./welch-satterthwaite.ts";

/** Several measurements of one thing: their mean, what each weighs in it, and how far they differ beyond their u. */
export interface Consensus {
  readonly estimate: Estimate;
  readonly weights: readonly number[];
  /** The part of u that comes from the spread between them, with its dof; u = 0 where they agree within their u. */
  readonly between: Between;
}

export interface Between {
  readonly u: number;
  readonly dof: number;
  /** Whether Q is over the 95 % quantile of χ² with k − 1 dof: more than chance would make of equal ones. */
  readonly significant: boolean;
}

/** dof lent to the spread of a few: with k−1 alone two that differ would give an interval 13 u wide, which says nothing. */
const DOF_LENT = 2;

/**
 * Weighted mean with wᵢ ∝ 1/(uᵢ² + τ²), τ² ≥ 0 by Paule and Mandel: the τ² at which Σ(xᵢ−x̄)²/(uᵢ²+τ²) = k − 1, 0 where
 * that sum is under k − 1 already (1982, J. Res. NBS 87:377). u² = Σwᵢ²uᵢ² + τ²Σwᵢ², dof by Welch–Satterthwaite.
 */
export function consensus(estimates: readonly Estimate[]): Consensus {
  const [only] = estimates;
  if (only === undefined) throw new RangeError("a consensus needs at least one estimate");
  if (estimates.length === 1)
    return { estimate: only, weights: [1], between: { u: 0, dof: Infinity, significant: false } };
  const tau2 = pauleMandel(estimates);
  const weights = weightsAt(estimates, tau2);
  const between = {
    u: Math.sqrt(tau2 * weights.reduce((sum, w) => sum + w * w, 0)),
    dof: estimates.length - 1 + DOF_LENT,
    significant: cochranQ(estimates) > chiSquare95(estimates.length - 1),
  };
  const parts = estimates.map(({ u, dof }, i) => ({ u: weights[i]! * u, dof }));
  const { u, dof } = welchSatterthwaite([...parts, between]);
  return { estimate: { value: weightedMean(estimates, weights), u, dof }, weights, between };
}

function weightsAt(estimates: readonly Estimate[], tau2: number): number[] {
  const least = estimates.reduce((a, { u }) => Math.min(a, u * u + tau2), Infinity);
  const raw = estimates.map(({ u }) => (least > 0 ? least / (u * u + tau2) : 1));
  const sum = raw.reduce((a, b) => a + b, 0);
  return raw.map((w) => w / sum);
}

function weightedMean(estimates: readonly Estimate[], weights: readonly number[]): number {
  return estimates.reduce((sum, { value }, i) => sum + weights[i]! * value, 0);
}

/** Q = Σ(xᵢ−x̄)²/uᵢ² about the inverse-variance mean (Cochran 1954). */
function cochranQ(estimates: readonly Estimate[]): number {
  const mean = weightedMean(estimates, weightsAt(estimates, 0));
  return estimates.reduce((sum, { value, u }) => sum + ((value - mean) / u) ** 2, 0);
}

/** 95 % quantile of χ², ν(1 − 2/9ν + 1.645√(2/9ν))³, within 3 % from 1 dof on (Wilson and Hilferty 1931). */
function chiSquare95(dof: number): number {
  const a = 2 / (9 * dof);
  return dof * (1 - a + 1.644854 * Math.sqrt(a)) ** 3;
}

function pauleMandel(estimates: readonly Estimate[]): number {
  const excess = (tau2: number) => {
    const mean = weightedMean(estimates, weightsAt(estimates, tau2));
    const q = estimates.reduce((sum, { value, u }) => sum + (value - mean) ** 2 / (u * u + tau2), 0);
    return q - (estimates.length - 1);
  };
  if (!(excess(0) > 0)) return 0;
  const values = estimates.map(({ value }) => value);
  // Q(τ²) falls from above k−1 to below it once τ² exceeds the squared range.
  let [low, high] = [0, (Math.max(...values) - Math.min(...values)) ** 2 + 1e-300];
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (low + high);
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
