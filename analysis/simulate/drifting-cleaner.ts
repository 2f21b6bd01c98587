import { solveRoom } from "./room-equation.ts";
import { decayOfBins, feedPerS, type RoomPhysics } from "./well-mixed.ts";

/**
 * A well-mixed room whose cleaner's rate drifts: CADR(t) = CADR·[1 + d·(t/T − ½)], t since switch-on, T the length of the
 * cleaner-on phase; d > 0 speeds up. Its mean over the phase is the scenario's CADR.
 * dC/dt = S(t) − k_n (C − C_bg) − (CADR(t)/V) C.
 */
export function driftingCleaner(drift: number): RoomPhysics {
  return (scenario) => {
    const bins = decayOfBins(scenario);
    const feed = feedPerS(scenario);
    const { totalS } = scenario.schedule;
    return solveRoom(scenario, {
      clean: bins.map(({ background }) => background),
      peak: bins.map(({ background, start }) => background + start),
      atCounter: (state) => state,
      slope: (state, { feeding, cleanerOnS }) => {
        const working = cleanerOnS === null ? 0 : 1 + drift * (cleanerOnS / totalS - 0.5);
        return bins.map(({ background, kNaturalPerS, kTotalPerS }, i) => {
          const removed = (kTotalPerS - kNaturalPerS) * working * state[i]!;
          return (feeding ? feed[i]! : 0) - kNaturalPerS * (state[i]! - background) - removed;
        });
      },
    });
  };
}
