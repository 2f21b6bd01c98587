import { randomEffects, type Study } from "./random-effects.ts";

/** A variance between studies, and Fisher's information about it at that value. */
export interface LikelyVariance {
  readonly tau2: number;
  readonly information: number;
}

const MOST_STEPS = 500;
const MOST_HALVINGS = 40;

/**
 * The variance τ² ≥ 0 between studies of greatest restricted likelihood, one τ² for all groups, a mean for each:
 *   ℓ = −½ Σ_groups [Σ ln(v+τ²) + ln Σw + Σ w(y−μ)²],  w = 1/(v+τ²)
 * by Fisher scoring from `start`, a step halved while it lowers ℓ. Harville 1977, JASA 72:320; Viechtbauer 2005, J. Educ.
 * Behav. Stat. 30:261. With `restricted` false ln Σw is left out: plain maximum likelihood, which is biased low.
 * Null where it does not settle.
 */
export function likelyVariance(
  groups: readonly (readonly Study[])[],
  start = 0,
  restricted = true,
): LikelyVariance | null {
  let tau2 = start;
  let here = slopes(groups, tau2, restricted);
  for (let i = 0; i < MOST_STEPS; i++) {
    let next = Math.max(0, tau2 + here.score / here.information);
    let there = slopes(groups, next, restricted);
    const slack = 1e-13 * (1 + Math.abs(here.logLikelihood));
    for (let h = 0; there.logLikelihood < here.logLikelihood - slack && h < MOST_HALVINGS; h++) {
      next = 0.5 * (next + tau2);
      there = slopes(groups, next, restricted);
    }
    const moved = Math.abs(next - tau2);
    [tau2, here] = [next, there];
    if (moved <= 1e-14 * tau2) return { tau2, information: here.information };
    if (!Number.isFinite(here.logLikelihood)) return null;
  }
  return null;
}

function slopes(groups: readonly (readonly Study[])[], tau2: number, restricted: boolean) {
  let [logLikelihood, score, information] = [0, 0, 0];
  for (const studies of groups) {
    const { value, u } = randomEffects(studies, tau2);
    let [w1, w2, w3] = [1 / u ** 2, 0, 0];
    for (const study of studies) {
      const w = 1 / (study.variance + tau2);
      const squared = (study.value - value) ** 2;
      w2 += w * w;
      w3 += w * w * w;
      logLikelihood += 0.5 * (Math.log(w) - w * squared);
      score += 0.5 * (w * w * squared - w);
    }
    information += 0.5 * w2;
    if (!restricted) continue;
    logLikelihood -= 0.5 * Math.log(w1);
    score += 0.5 * (w2 / w1);
    information += 0.5 * ((w2 / w1) ** 2 - (2 * w3) / w1);
  }
  return { logLikelihood, score, information };
}
