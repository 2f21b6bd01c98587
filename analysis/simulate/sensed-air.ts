import type { CounterModel } from "./scenario.ts";

type Air = (tS: number) => readonly number[];

/** The air as a smoothing counter senses it. Before the log began it was as at its beginning. */
export function sensedAir(air: Air, smoothing: CounterModel["smoothing"]): Air {
  if (smoothing === null) return air;
  return smoothing.kind === "lag" ? lagging(air, smoothing.timeS) : movingMean(air, smoothing.timeS);
}

/** Slices of a smoothing's memory: both integrals are then good to about 1e-4 of the value. */
const PIECES = 40;
const LAG_PIECES = 240;

/** (1/W) ∫ C(t − s) ds over the last W, at the middles of slices of equal length. */
function movingMean(air: Air, widthS: number): Air {
  const delaysS = Array.from({ length: PIECES }, (_, i) => widthS * ((i + 0.5) / PIECES));
  return (tS) => {
    const moments = delaysS.map((delayS) => air(Math.max(0, tS - delayS)));
    return moments[0]!.map((_, bin) => moments.reduce((sum, moment) => sum + moment[bin]!, 0) / PIECES);
  };
}

/**
 * ∫ e^(−s/τ)/τ · C(t − s) ds: what came before the log holds e^(−t/τ) of it; the rest in slices, the thinner the further back,
 * each at its mean delay.
 */
function lagging(air: Air, tauS: number): Air {
  const start = air(0);
  return (tS) => {
    const before = Math.exp(-tS / tauS);
    const seen = start.map((level) => before * level);
    for (let i = 0; i < LAG_PIECES; i++) {
      const from = (1 - before) * (1 - (1 - i / LAG_PIECES) ** 2);
      const to = (1 - before) * (1 - (1 - (i + 1) / LAG_PIECES) ** 2);
      if (!(to > from)) continue;
      const moment = air(Math.max(0, tS - tauS * meanDelay(from, to)));
      moment.forEach((level, bin) => {
        seen[bin]! += (to - from) * level;
      });
    }
    return seen;
  };
}

/** Mean of −ln(1 − p) over p from a to b: the mean delay, in time constants, of that slice of an exponential's memory. */
function meanDelay(a: number, b: number): number {
  const inner = (p: number) => (p < 1 ? (1 - p) * Math.log1p(-p) : 0);
  return 1 + (inner(b) - inner(a)) / (b - a);
}
