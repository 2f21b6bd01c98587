import type { Estimate } from "./estimate.ts";

/** One trial's contribution: k_total − k_natural (1/h) measured in a room of a volume (m³). */
export interface Measured {
  readonly room: string;
  readonly kDifferencePerH: Estimate;
  readonly volumeM3: Estimate;
}

/**
 * Pooled clean air delivery rate [m³/h] of one configuration at one setting in one band. In each room the rate differences
 * are pooled first and multiplied by the volume once, since all its trials share one volume error; then rooms are pooled.
 * Both steps weight by inverse variance and widen by the Birge ratio where the members disagree by more than their u
 * (Birge 1932, Phys. Rev. 40:207); never narrowed where they agree by luck.
 */
export function poolCadr(members: readonly Measured[]): Estimate {
  const byRoom = Map.groupBy(members, (member) => member.room);
  const rooms = [...byRoom.values()].map((inRoom) => {
    const k = inverseVarianceMean(inRoom.map((member) => member.kDifferencePerH));
    return cadrOf(k, inRoom[0]!.volumeM3);
  });
  return inverseVarianceMean(rooms);
}

/** V·k with u = √((V·u_k)² + (k·u_V)²) (JCGM 100:2008 eq. 10) and Welch–Satterthwaite dof (eq. G.2b). */
function cadrOf(k: Estimate, volume: Estimate): Estimate {
  const fromK = volume.value * k.u;
  const fromVolume = k.value * volume.u;
  const u = Math.hypot(fromK, fromVolume);
  return { value: volume.value * k.value, u, dof: u ** 4 / (fromK ** 4 / k.dof + fromVolume ** 4 / volume.dof) };
}

/**
 * x̄ = Σ wᵢxᵢ / Σ wᵢ with wᵢ = 1/uᵢ²; u = max(1, R_B)/√Σwᵢ, R_B = √(Q/(n−1)). dof: those of the inputs combined by their
 * shares of the variance, but n−1 where the spread, not the inputs, decides u.
 */
export function inverseVarianceMean(estimates: readonly Estimate[]): Estimate {
  const [only] = estimates;
  if (!only) throw new RangeError("nothing to pool");
  if (estimates.length === 1) return only;
  const weights = estimates.map(({ u }) => 1 / u ** 2);
  const sum = weights.reduce((a, b) => a + b, 0);
  const value = estimates.reduce((mean, { value }, i) => mean + (value * weights[i]!) / sum, 0);
  const q = estimates.reduce((total, estimate, i) => total + weights[i]! * (estimate.value - value) ** 2, 0);
  const birge = Math.sqrt(q / (estimates.length - 1));
  const inputs = 1 / estimates.reduce((total, { dof }, i) => total + (weights[i]! / sum) ** 2 / dof, 0);
  return {
    value,
    u: Math.max(1, birge) / Math.sqrt(sum),
    dof: birge > 1 ? Math.min(inputs, estimates.length - 1) : inputs,
  };
}
