import { cochranQ, randomEffects, type Study } from "./random-effects.ts";
import { likelyVariance } from "./restricted-likelihood.ts";

/**
 * The variance τ² ≥ 0 between two or more studies, beyond their own variances v: by restricted maximum likelihood, or where
 * that does not settle by Paule and Mandel's rule. In the square of the studies' unit.
 */
export function betweenVariance(studies: readonly Study[]): number {
  return likelyVariance([studies], derSimonianLaird(studies))?.tau2 ?? pauleMandel(studies);
}

/** τ² = max(0, (Q − (k−1))/(Σw − Σw²/Σw)), w = 1/v. DerSimonian and Laird 1986, Control. Clin. Trials 7:177. */
export function derSimonianLaird(studies: readonly Study[]): number {
  const w = studies.map(({ variance }) => 1 / variance);
  const sum = w.reduce((a, b) => a + b, 0);
  const squares = w.reduce((a, b) => a + b * b, 0);
  return Math.max(0, (cochranQ(studies) - (studies.length - 1)) / (sum - squares / sum));
}

/** τ² = max(0, Σ(y − ȳ)²/(k−1) − v̄), plain means. Hedges 1985; Cochran's analysis of variance. */
export function hedges(studies: readonly Study[]): number {
  const mean = studies.reduce((sum, { value }) => sum + value, 0) / studies.length;
  const scatter = studies.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / (studies.length - 1);
  return Math.max(0, scatter - studies.reduce((sum, { variance }) => sum + variance, 0) / studies.length);
}

/**
 * The τ² at which Σ(y − μ)²/(v + τ²) = k − 1; 0 where that sum is under k − 1 already. The sum is convex and falls with τ²,
 * so that Newton's method from 0 rises to the root without overshoot. Paule and Mandel 1982, J. Res. NBS 87:377.
 */
export function pauleMandel(studies: readonly Study[]): number {
  const dof = studies.length - 1;
  let tau2 = 0;
  for (let i = 0; i < 200; i++) {
    const { value, q } = randomEffects(studies, tau2);
    const slope = studies.reduce((sum, s) => sum + ((s.value - value) / (s.variance + tau2)) ** 2, 0);
    const step = ((q - 1) * dof) / slope;
    if (!(step > 1e-15 * tau2)) return tau2;
    tau2 += step;
  }
  return tau2;
}
