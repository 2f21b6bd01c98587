import { tQuantile } from "./student-t.ts";

/**
 * A measured number: value, standard uncertainty u in the same unit, and effective degrees of freedom
 * (Infinity where u is taken as known). JCGM 100:2008 (GUM) 3.3.5 and G.4.
 */
export interface Estimate {
  readonly value: number;
  readonly u: number;
  readonly dof: number;
}

/**
 * Coverage factor of the two-sided 95 % interval: t₀.₉₇₅ at dof truncated to an integer (GUM G.4.1), at least 1.
 */
export function coverageFactor95(dof: number): number {
  return tQuantile(0.975, dof === Infinity ? Infinity : Math.max(1, Math.floor(dof)));
}

/** The 95 % interval value ± k_p·u, in the estimate's own unit. */
export function interval95({ value, u, dof }: Estimate): { low: number; high: number } {
  const half = coverageFactor95(dof) * u;
  return { low: value - half, high: value + half };
}
