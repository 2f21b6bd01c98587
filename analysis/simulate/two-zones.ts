import { solveRoom } from "./room-equation.ts";
import { decayOfBins, feedPerS, type RoomPhysics } from "./well-mixed.ts";

/**
 * A room of two zones, each well mixed, that exchange the flow q [m³/h]: the cleaner stands in one, the counter in the
 * other, which holds the share s of the volume. With C₁ at the cleaner and C₂ at the counter, k_n and C_bg the same in both,
 * dC₁/dt = S − k_n(C₁ − C_bg) − CADR/((1−s)V)·C₁ − q/((1−s)V)·(C₁ − C₂), dC₂/dt = S − k_n(C₂ − C_bg) − q/(sV)·(C₂ − C₁).
 * The aerosol is fed to both alike, so a log that begins at its peak begins mixed. For q → ∞ the well-mixed room.
 */
export function twoZones(exchangeM3PerH: number, counterShare: number): RoomPhysics {
  return (scenario) => {
    const bins = decayOfBins(scenario);
    const feed = feedPerS(scenario);
    const count = bins.length;
    const exchangePerS = exchangeM3PerH / scenario.room.volumeM3 / 3600;
    const both = (level: readonly number[]) => [...level, ...level];
    return solveRoom(scenario, {
      clean: both(bins.map(({ background }) => background)),
      peak: both(bins.map(({ background, start }) => background + start)),
      atCounter: (state) => state.slice(count),
      slope: (state, { feeding, cleanerOnS }) => {
        const zone = (own: number, other: number, share: number, cleans: boolean) =>
          bins.map(({ background, kNaturalPerS, kTotalPerS }, i) => {
            const here = state[own + i]!;
            const removed = cleans ? ((kTotalPerS - kNaturalPerS) / share) * here : 0;
            const exchanged = (exchangePerS / share) * (here - state[other + i]!);
            return (feeding ? feed[i]! : 0) - kNaturalPerS * (here - background) - removed - exchanged;
          });
        return [...zone(0, count, 1 - counterShare, cleanerOnS !== null), ...zone(count, 0, counterShare, false)];
      },
    });
  };
}
