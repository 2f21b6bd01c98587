import { meanSizeUm, type Scenario, valueAt } from "./scenario.ts";

/** What a room does to its aerosol: number concentrations of the size bins in 1/cm³ at a time of the log. */
export type RoomPhysics = (scenario: Scenario) => (tS: number) => readonly number[];

/**
 * One well-mixed zone, each size on its own: dC/dt = S(t) − k_n (C − C_bg) − (CADR/V) C. With the cleaner off the air returns
 * to its clean level C_bg; under the cleaner it falls to the lower floor C_bg·k_n/(k_n + CADR/V). The feed S is constant and
 * such that C_bg + C_start is reached when it ends. Solved exactly: every phase is one exponential.
 */
export const wellMixed: RoomPhysics = (scenario) => {
  const bins = decayOfBins(scenario);
  const { cleanAirS, feedS, naturalS, totalS } = scenario.schedule;
  const fed = feedS + naturalS + totalS > 0; // else the log is a background run
  return (tS) =>
    bins.map(({ background, start, kNaturalPerS, kTotalPerS, floor }) => {
      const fedS = tS - cleanAirS;
      if (fedS < 0 || !fed) return background;
      if (fedS < feedS) return background + (start * fill(kNaturalPerS, fedS)) / fill(kNaturalPerS, feedS);
      const naturalNowS = Math.min(fedS - feedS, naturalS);
      const level = background + start * Math.exp(-kNaturalPerS * naturalNowS);
      const totalNowS = fedS - feedS - naturalS;
      return totalNowS <= 0 ? level : floor + (level - floor) * Math.exp(-kTotalPerS * totalNowS);
    });
};

/** (1 − e^(−kt))/k: how far a constant feed has filled the room. */
function fill(kPerS: number, tS: number): number {
  return kPerS === 0 ? tS : -Math.expm1(-kPerS * tS) / kPerS;
}

/** The constant feed of each size bin in 1/(cm³·s) that brings clean air up by C_start within the feed, natural loss against it. */
export function feedPerS(scenario: Scenario): number[] {
  const { feedS } = scenario.schedule;
  return decayOfBins(scenario).map(({ start, kNaturalPerS }) => (feedS > 0 ? start / fill(kNaturalPerS, feedS) : 0));
}

export interface BinDecay {
  readonly background: number;
  readonly start: number;
  readonly kNaturalPerS: number;
  readonly kTotalPerS: number;
  readonly cadrM3PerH: number;
  /** Level under the cleaner after a long time, 1/cm³. */
  readonly floor: number;
}

/** The constants of each size bin's decay. */
export function decayOfBins({ room, cleaner, aerosol }: Scenario): BinDecay[] {
  const shares = aerosol.sizes.reduce((sum, bin) => sum + bin.share, 0);
  return aerosol.sizes.map((bin) => {
    const kNatural = valueAt(room.kNaturalPerH, meanSizeUm(bin));
    const cadrM3PerH = valueAt(cleaner.cadrM3PerH, meanSizeUm(bin));
    const kTotal = kNatural + cadrM3PerH / room.volumeM3;
    const background = (aerosol.backgroundPerCm3 * bin.share) / shares;
    return {
      background,
      start: (aerosol.startPerCm3 * bin.share) / shares,
      kNaturalPerS: kNatural / 3600,
      kTotalPerS: kTotal / 3600,
      cadrM3PerH,
      floor: kTotal === 0 ? background : (background * kNatural) / kTotal,
    };
  });
}
