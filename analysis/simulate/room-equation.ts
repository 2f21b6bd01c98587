import type { Scenario } from "./scenario.ts";
import type { RoomPhysics } from "./well-mixed.ts";

/** A room as a differential equation: what a mechanism without a closed solution states about itself. */
export interface RoomEquation {
  /** Number concentrations in 1/cm³, of the size bins or of the bins of each zone: in clean air, and of a log that begins at its peak. */
  readonly clean: readonly number[];
  readonly peak: readonly number[];
  /** d(state)/dt in 1/(cm³·s). */
  readonly slope: (state: readonly number[], moment: Moment) => readonly number[];
  /** The size bins where the counter stands. */
  readonly atCounter: (state: readonly number[]) => readonly number[];
}

export interface Moment {
  readonly feeding: boolean;
  /** Since the cleaner was switched on; null while it is off. */
  readonly cleanerOnS: number | null;
}

/** A step of 5 s against rates up to 0.02 /s: Runge and Kutta's error stays under 1e-6 of the value. */
const STEP_S = 5;

/**
 * Solves a room's equation by Runge and Kutta's fourth-order rule, phase by phase so that no step straddles a switch, and
 * interpolates by the cubic through values and slopes at both ends of a step (Hermite).
 */
export function solveRoom({ schedule }: Scenario, equation: RoomEquation): ReturnType<RoomPhysics> {
  const { cleanAirS, feedS, naturalS, totalS } = schedule;
  if (feedS + naturalS + totalS === 0) return () => equation.atCounter(equation.clean);
  const feedEndS = cleanAirS + feedS;
  const onS = feedEndS + naturalS;
  const pieces: Piece[] = [];
  let state = feedS > 0 ? equation.clean : equation.peak;
  const run = (fromS: number, toS: number, moment: (tS: number) => Moment) => {
    const count = Math.ceil((toS - fromS) / STEP_S);
    const stepS = (toS - fromS) / count;
    for (let i = 0; i < count; i++) {
      const startS = fromS + i * stepS;
      const slope = (y: readonly number[], afterS: number) => equation.slope(y, moment(startS + afterS));
      const next = rungeKutta(state, stepS, slope);
      pieces.push({ startS, stepS, from: state, to: next, slopeFrom: slope(state, 0), slopeTo: slope(next, stepS) });
      state = next;
    }
  };
  run(cleanAirS, feedEndS, () => ({ feeding: true, cleanerOnS: null }));
  run(feedEndS, onS, () => ({ feeding: false, cleanerOnS: null }));
  run(onS, onS + totalS, (tS) => ({ feeding: false, cleanerOnS: tS - onS }));
  return (tS) => {
    if (tS < cleanAirS) return equation.atCounter(equation.clean);
    const next = pieces.findIndex(({ startS, stepS }) => tS < startS + stepS);
    const piece = pieces.at(next)!; // the last one, −1, also holds the very end
    return equation.atCounter(interpolate(piece, tS));
  };
}

interface Piece {
  readonly startS: number;
  readonly stepS: number;
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly slopeFrom: readonly number[];
  readonly slopeTo: readonly number[];
}

function rungeKutta(
  state: readonly number[],
  stepS: number,
  slope: (y: readonly number[], afterS: number) => readonly number[],
): number[] {
  const ahead = (k: readonly number[], share: number) => state.map((y, i) => y + share * stepS * k[i]!);
  const k1 = slope(state, 0);
  const k2 = slope(ahead(k1, 0.5), stepS / 2);
  const k3 = slope(ahead(k2, 0.5), stepS / 2);
  const k4 = slope(ahead(k3, 1), stepS);
  return state.map((y, i) => y + (stepS / 6) * (k1[i]! + 2 * k2[i]! + 2 * k3[i]! + k4[i]!));
}

function interpolate({ startS, stepS, from, to, slopeFrom, slopeTo }: Piece, tS: number): number[] {
  const x = (tS - startS) / stepS;
  return from.map((y0, i) => {
    const rise = to[i]! - y0;
    const a = slopeFrom[i]! * stepS - rise;
    const b = rise - slopeTo[i]! * stepS;
    return y0 + x * rise + x * (1 - x) * (a * (1 - x) + b * x);
  });
}
