import type { Estimate } from "./estimate.ts";
import { type UncertaintyPart, welchSatterthwaite } from "./welch-satterthwaite.ts";

/** What k_total − k_natural is made of, each u in 1/h with its dof. */
export interface RateDifference {
  readonly totalPerH: Estimate;
  readonly naturalPerH: Estimate;
  /** Of the two, in 1/h². */
  readonly covariance: number;
  /** Further components: the spread between counters, findings. */
  readonly others: readonly (UncertaintyPart & { readonly source: string })[];
}

/** One component of u(CADR) in m³/h; shares are of the variance and add up to 1. */
export interface BudgetPart {
  readonly source: string;
  readonly u: number;
  readonly share: number;
}

export interface CleanAirDeliveryRate {
  readonly cadrM3PerH: Estimate;
  readonly kDifferencePerH: Estimate;
  readonly budget: readonly BudgetPart[];
}

/**
 * Clean air delivery rate CADR = V·(k_total − k_natural) [m³/h], V in m³, k in 1/h. u by first-order propagation (JCGM
 * 100:2008 eq. 13): the components are independent but for the two decays, which share their background; dof by
 * Welch–Satterthwaite (eq. G.2b). In the budget the covariance is a part of its own with a share below 0.
 */
export function cleanAirDeliveryRate(volumeM3: Estimate, rates: RateDifference): CleanAirDeliveryRate {
  const { totalPerH, naturalPerH, covariance, others } = rates;
  const difference = totalPerH.value - naturalPerH.value;
  const ofRate = [
    { source: "total_fit", u: totalPerH.u, dof: totalPerH.dof },
    { source: "natural_fit", u: naturalPerH.u, dof: naturalPerH.dof },
    ...others,
  ];
  const parts = [
    { source: "volume", u: Math.abs(difference) * volumeM3.u, dof: volumeM3.dof },
    ...ofRate.map(({ source, u, dof }) => ({ source, u: volumeM3.value * u, dof })),
  ];
  const cadr = welchSatterthwaite(parts, volumeM3.value ** 2 * covariance);
  const rate = welchSatterthwaite(ofRate, covariance);
  const shared = volumeM3.value * Math.sqrt(2 * covariance);
  const share = (u: number) => (cadr.u > 0 ? (u / cadr.u) ** 2 : 0);
  return {
    cadrM3PerH: { value: volumeM3.value * difference, u: cadr.u, dof: cadr.dof },
    kDifferencePerH: { value: difference, u: rate.u, dof: rate.dof },
    budget: [
      ...parts.map(({ source, u }) => ({ source, u, share: share(u) })),
      ...(shared > 0 ? [{ source: "shared_background", u: shared, share: -share(shared) }] : []),
    ],
  };
}
