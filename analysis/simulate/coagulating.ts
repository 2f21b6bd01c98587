import { solveRoom } from "./room-equation.ts";
import { decayOfBins, feedPerS, type RoomPhysics } from "./well-mixed.ts";

/**
 * A well-mixed room in which particles stick together: dC/dt = S(t) − k C − K·C·N of each size, N all sizes together, K in
 * cm³/s; a pair counts as one of its sizes from then on (growth across bins is left out). The clean air is held by its
 * source. With one size and no background N(t) = N₀e^(−kt)/[1 + (K N₀/k)(1 − e^(−kt))] (Smoluchowski's equation with one K).
 */
export function coagulating(kCm3PerS: number): RoomPhysics {
  return (scenario) => {
    const bins = decayOfBins(scenario);
    const feed = feedPerS(scenario);
    const clean = bins.map(({ background }) => background);
    const sum = (state: readonly number[]) => state.reduce((total, n) => total + n, 0);
    const held = clean.map((n) => kCm3PerS * n * sum(clean));
    return solveRoom(scenario, {
      clean,
      peak: bins.map(({ background, start }) => background + start),
      atCounter: (state) => state,
      slope: (state, { feeding, cleanerOnS }) => {
        const all = sum(state);
        return bins.map(({ background, kNaturalPerS, kTotalPerS }, i) => {
          const source = kNaturalPerS * background + held[i]! + (feeding ? feed[i]! : 0);
          const k = cleanerOnS === null ? kNaturalPerS : kTotalPerS;
          return source - (k + kCm3PerS * all) * state[i]!;
        });
      },
    });
  };
}
