import { decayOfBins, type RoomPhysics, wellMixed } from "../../analysis/simulate/well-mixed.ts";
import type { MarkEvent, Run, Trial } from "../../analysis/trial.ts";
import type { Dice, Occasion } from "./occasion.ts";
import { drawDisturbance, massSensor, numberSensor } from "./sensors.ts";
import { simulateTrial } from "./simulated-trial.ts";

/** A cleaner in a room of usual size, and one that clears a small chamber within minutes. */
export const STRENGTHS = ["room", "strong"] as const;
export type Strength = (typeof STRENGTHS)[number];

/** The cleaner off again for this long at the end of the log. */
const OFF_AGAIN_S = 600;

/** A full log of one cycle with all its marks true: clean air, aerosol, cleaner off, on, and off again. */
export function drawMarkedLog(strength: Strength, dice: Dice): Occasion & { readonly kNaturalPerH: number } {
  const strong = strength === "strong";
  const intervalS = dice.oneOf(strong ? [1, 2, 5] : [5, 10, 20, 60]);
  const disturbance = strong ? { sd: dice.between(0.005, 0.03), tauS: dice.between(5, 60) } : drawDisturbance(dice);
  const mass = dice.uniform() < 0.5;
  const kAddedPerH = strong ? dice.between(15, 100) : dice.between(2, 8);
  const totalS = strong ? (3600 * dice.between(2.5, 5)) / kAddedPerH : dice.between(1200, 2400);
  const layout = {
    backgroundS: 300 + Math.round(dice.between(1, 60)),
    feedS: Math.round(dice.between(60, 180)),
    naturalS: Math.round(strong ? dice.between(600, 1500) : dice.between(1800, 3600)),
    totalS: Math.round(totalS) + OFF_AGAIN_S,
  };
  const kNaturalPerH = strong ? dice.between(0.4, 4) : dice.between(0.15, 1.2);
  const occasion = simulateTrial(
    {
      volumeM3: strong ? dice.between(4, 15) : dice.between(20, 60),
      kNaturalPerH,
      kAddedPerH,
      start: mass ? 1000 : dice.between(100, 1000),
      background: dice.between(1, 20) * (mass ? 1 : 0.1),
      sensors: [mass ? massSensor(disturbance, intervalS) : numberSensor(disturbance, intervalS, dice.between(5, 50))],
      layout,
      physics: switchedOffAgain,
    },
    dice,
  );
  const feedEndS = layout.backgroundS + layout.feedS;
  const onS = feedEndS + layout.naturalS;
  const marks: Run["marks"] = [
    { event: "aerosol_end", tS: feedEndS },
    { event: "cleaner_on", tS: onS },
    { event: "cleaner_off", tS: onS + layout.totalS - OFF_AGAIN_S },
  ];
  const runs = occasion.trial.runs.map((run) => ({ ...run, marks }));
  return { ...occasion, kNaturalPerH, trial: { ...occasion.trial, runs } };
}

/** Seconds by which marks lie off, or stamped to the full minute. */
export type Shift = number | "minute";

/** The trial with one kind of its marks moved, or all of them. */
export function withMarks(trial: Trial, shift: Shift, event: MarkEvent | "all" = "all"): Trial {
  const moved = (tS: number) => (shift === "minute" ? 60 * Math.round(tS / 60) : tS + shift);
  const runs = trial.runs.map((run) => ({
    ...run,
    marks: run.marks.map((mark) => (event === "all" || mark.event === event ? { ...mark, tS: moved(mark.tS) } : mark)),
  }));
  return { ...trial, runs };
}

/** The well-mixed room, whose air goes back to its natural decay for the end of the log. */
const switchedOffAgain: RoomPhysics = (scenario) => {
  const { cleanAirS, feedS, naturalS, totalS } = scenario.schedule;
  const offS = cleanAirS + feedS + naturalS + totalS - OFF_AGAIN_S;
  const underCleaner = wellMixed(scenario);
  const bins = decayOfBins(scenario);
  const left = underCleaner(offS);
  return (tS) =>
    tS <= offS
      ? underCleaner(tS)
      : bins.map(({ background, kNaturalPerS }, i) => {
          const above = left[i]! - background;
          return background + above * Math.exp(-kNaturalPerS * (tS - offS));
        });
};
