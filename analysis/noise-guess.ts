import type { DecayColumns, DecayData } from "./decay-model.ts";
import type { NoisePrior } from "./decay-noise-fit.ts";
import { exp, expm1 } from "./exp.ts";
import { log } from "./log.ts";

/** No guess lies further than this from the centre of its prior, in logarithms. */
const REACH = 3;
/** What differences leave to a part of the noise where chance would leave it nothing. */
const LEAST_SHARE = 0.1;

/**
 * Noise to start from, as logarithms in the prior's order, from the residuals r of the first guess. Half the mean square
 * of their differences over one and over two steps is D₁ = R + s and D₂ ≈ R + 2s: R = w² + κ/μ has no memory, and s is
 * σ²Δt/τ, what a memory gathers in one step (blocks average a third of it away from both). Early, where μ is high, R shows
 * w, late κ. Of σ and τ little but s is seen, so τ starts at its prior.
 */
export function guessNoise(data: DecayData, { expected, columns }: DecayColumns, prior: NoisePrior): number[] {
  const n = expected.length;
  const early = roughness(data, expected, columns[0], 0, n >> 1);
  const late = roughness(data, expected, columns[0], n >> 1, n);
  const within = (value: number, p: number) => {
    const centre = prior.centre[p]!;
    return value > 0 ? Math.max(centre - REACH, Math.min(centre + REACH, log(value))) : centre;
  };
  const counting = within((late.memoryless - early.memoryless) / (late.perMu - early.perMu), 3);
  const white2 = Math.max(LEAST_SHARE * early.memoryless, early.memoryless - exp(counting) * early.perMu);
  const tau = Math.min(prior.tauBounds[1], Math.max(prior.tauBounds[0], prior.centre[1]!));
  const stepH = (data.tHours[n - 1]! - data.tHours[0]!) / (n - 1);
  const sigma2 = early.gathered / -expm1(-stepH / exp(tau));
  return [within(Math.sqrt(sigma2), 0), tau, within(Math.sqrt(white2), 2), counting];
}

/** R of single readings (without that of the step q), s, and mean 1/μ of the rows [from, to). */
function roughness({ perBlock, stepQ }: DecayData, expected: Float64Array, r: Float64Array, from: number, to: number) {
  let d1 = 0;
  let d2 = 0;
  let perMu = 0;
  let rounding = 0;
  for (let i = from; i < to; i++) {
    perMu += 1 / expected[i]!;
    rounding += stepQ ** 2 / (12 * expected[i]! ** 2);
    if (i > from) d1 += 0.5 * Math.min(1, (r[i]! - r[i - 1]!) ** 2);
    if (i > from + 1) d2 += 0.5 * Math.min(1, (r[i]! - r[i - 2]!) ** 2);
  }
  const n = to - from;
  d1 /= Math.max(1, n - 1);
  d2 /= Math.max(1, n - 2);
  const blocked = ((1 - perBlock ** -2) / 3) * Math.max(0, d2 - d1);
  const memoryless = Math.max(LEAST_SHARE * d1, Math.min(d1, 2 * d1 - d2 + blocked));
  const single = perBlock * memoryless - rounding / n;
  return { memoryless: Math.max(0, single), gathered: Math.max(LEAST_SHARE * d1, d1 - memoryless), perMu: perMu / n };
}
