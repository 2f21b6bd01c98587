import type { BandDecay } from "./counter-decays.ts";
import type { Estimate } from "./estimate.ts";

/**
 * Covariance of k_total and k_natural of one counter [1/h²]: the floor under the cleaner is taken from the background X and
 * from k_natural, m = X·k_n/k, so an error of either moves both decays the same way. With s = ∂k/∂(prior mean of B) of each
 * fit, cov = s_t·(∂m/∂X·cov(X, k_n) + ∂m/∂k_n·u²(k_n)); cov(X, k_n) is s_n·u²(X) where X was read, and that of the natural
 * fit's own B and k where X is that B. Decays of one phase count alike. First order (JCGM 100:2008 eq. 13), and at most
 * what a correlation of 1 gives.
 */
export function sharedBackground(
  totals: readonly BandDecay[],
  naturals: readonly BandDecay[],
  total: Estimate,
  natural: Estimate,
): number {
  const ofSource = mean(
    naturals.map(({ fit, uReading }) => (uReading === null ? fit.covarianceOfKAndB : fit.perPriorMean * uReading ** 2)),
  );
  const covariance = mean(
    totals.map(({ fit, prior }) => {
      const { mean: m, sd, perSource = 0, perNaturalPerH = 0 } = prior(fit.kPerH.value);
      // A prior as wide as its mean pulls the less the wider it gets.
      const pull = sd === m ? 1 - (2 * (m - fit.background.value)) / sd : 1;
      return fit.perPriorMean * pull * (perSource * ofSource + perNaturalPerH * natural.u ** 2);
    }),
  );
  return Math.max(0, Math.min(covariance, total.u * natural.u));
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((a, b) => a + b, 0) / values.length;
}
