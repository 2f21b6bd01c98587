import type { Channel, Counter } from "./trial.ts";

/**
 * How long after a sudden change a counter's readings still tell of what was before [s]: the stated smoothing (a moving
 * mean forgets after its length, a lag to 5 % after three time constants); a mass counter that states none waits
 * min(30 s, max(0.25/k, 2Δt)); any other none.
 */
export function settlingTimeS(
  counter: Counter,
  quantity: Channel["quantity"],
  kPerH: number,
  intervalS: number,
): number {
  const { smoothing } = counter;
  if (smoothing) return smoothing.kind === "lag" ? 3 * smoothing.timeS : smoothing.timeS;
  if (quantity !== "mass") return 0;
  return Math.min(30, Math.max(kPerH > 0 ? (0.25 / kPerH) * 3600 : Infinity, 2 * intervalS));
}
