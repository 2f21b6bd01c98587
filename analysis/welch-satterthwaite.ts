/** One independent component of a standard uncertainty, already times its sensitivity, with its degrees of freedom. */
export interface UncertaintyPart {
  readonly u: number;
  readonly dof: number;
}

/**
 * Combined standard uncertainty u_c = √Σ u_i² of independent components, in their common unit, and its effective degrees of
 * freedom by Welch–Satterthwaite, ν_eff = u_c⁴ / Σ (u_i⁴/ν_i), not truncated. JCGM 100:2008 (GUM) eq. 11a and G.2b.
 * Components of ν = ∞ add nothing to the sum below; ν_eff = ∞ where all do, or where u_c is 0.
 * Where two of them enter with opposite signs and share an error, their covariance takes 2·cov off u_c² (eq. 13); ν_eff, of
 * which no formula is given then, comes out lower, on the safe side.
 * @throws RangeError for a u below 0 or degrees of freedom not above 0
 */
export function welchSatterthwaite(parts: readonly UncertaintyPart[], covariance = 0): UncertaintyPart {
  for (const { u, dof } of parts) {
    if (!(u >= 0 && u < Infinity)) throw new RangeError(`a standard uncertainty is 0 or more, not ${u}`);
    if (!(dof > 0)) throw new RangeError(`degrees of freedom are above 0, not ${dof}`);
  }
  const independent = Math.hypot(...parts.map(({ u }) => u));
  const combined = covariance > 0 ? independent * Math.sqrt(1 - (2 * covariance) / independent ** 2) : independent;
  // As shares of u_c, so that no fourth power over- or underflows.
  const sum = parts.reduce((total, { u, dof }) => total + (combined > 0 ? (u / combined) ** 4 / dof : 0), 0);
  return { u: combined, dof: 1 / sum };
}
