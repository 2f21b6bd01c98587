import type { Dice, Kind } from "./occasion.ts";
import { cumulativeSensor, drawDisturbance, massSensor, numberSensor, rawSensor } from "./sensors.ts";
import { quiet, type Sensor, type Setting, simulateTrial } from "./simulated-trial.ts";

/** Kinds of trial in which the estimator's model holds: one exponential over a floor, noise with one memory, counting. */
export const MODELLED_KINDS: readonly Kind[] = [
  kind("paired", (dice) => pairedSetting(dice)),
  kind("paired-no-background", (dice) => ({
    ...pairedSetting(dice),
    layout: { ...pairedLengths(dice), backgroundS: 0 },
  })),
  kind("full-log", (dice) => ({
    ...pairedSetting(dice, dice.oneOf([5, 10, 20])),
    layout: { ...pairedLengths(dice), backgroundS: 300, feedS: 120 },
  })),
  kind("two-counters", (dice) => {
    const intervalS = dice.oneOf([10, 20, 60]);
    const sensors = [massSensor(drawDisturbance(dice), intervalS), massSensor(drawDisturbance(dice), intervalS)];
    return { ...pairedSetting(dice), ...MASS, sensors };
  }),
  kind("slow", (dice) => {
    const setting = pairedSetting(dice, dice.oneOf([20, 60]));
    const kAddedPerH = dice.between(0.3, 1.5);
    const totalS = (3600 * Math.LN2 * dice.between(1.3, 3)) / (setting.kNaturalPerH + kAddedPerH);
    return { ...setting, kAddedPerH, layout: { backgroundS: 900, naturalS: dice.between(3600, 7200), totalS } };
  }),
  kind("high-floor", (dice) => ({
    ...pairedSetting(dice),
    ...MASS,
    sensors: [massSensor(drawDisturbance(dice), dice.oneOf([10, 20, 60]))],
    kNaturalPerH: dice.between(0.4, 1.2),
    kAddedPerH: dice.between(1, 4),
    start: 500,
    background: dice.between(50, 200),
    layout: { backgroundS: 900, naturalS: dice.between(3600, 7200), totalS: dice.between(3600, 7200) },
  })),
  kind("strong-smoothed", (dice) => {
    const smoothing = { kind: dice.oneOf(["lag", "moving_mean"] as const), timeS: dice.between(5, 20) };
    const disturbance = { sd: dice.between(0.01, 0.03), tauS: dice.between(10, 60) };
    return {
      ...pairedSetting(dice),
      ...MASS,
      volumeM3: dice.between(8, 20),
      kNaturalPerH: dice.between(0.5, 2),
      kAddedPerH: dice.between(15, 40),
      sensors: [massSensor(disturbance, dice.oneOf([1, 2]), { model: { smoothing }, stated: { smoothing } })],
      layout: { backgroundS: 300, naturalS: dice.between(900, 1800), totalS: dice.between(400, 800) },
    };
  }),
  kind("cumulative-ceiling", (dice) => {
    const setting = pairedSetting(dice);
    const layout = pairedLengths(dice);
    const start = dice.between(2000, 20_000);
    // The first part of the natural decay, at most three tenths of it, stands at the ceiling.
    const lostShare = Math.exp((-setting.kNaturalPerH * layout.naturalS * 0.3 * dice.uniform()) / 3600);
    const ceiling = Math.round((start * lostShare) / (5 / 6));
    const sensors = [cumulativeSensor(drawDisturbance(dice), dice.oneOf([10, 20]), ceiling)];
    return { ...setting, start, background: start * dice.between(0.001, 0.02), layout, sensors };
  }),
  kind("few-counts", (dice) => ({
    ...pairedSetting(dice),
    start: dice.between(8, 20),
    background: dice.between(0.05, 0.4),
    sensors: [rawSensor(drawDisturbance(dice), dice.oneOf([5, 10, 20]))],
    layout: { backgroundS: 900, naturalS: 3600, totalS: dice.between(1800, 3600) },
  })),
];

function kind(name: string, draw: (dice: Dice) => Setting): Kind {
  return {
    name,
    modelled: true,
    limited: true,
    rightFindings: [],
    draw: (dice) => simulateTrial(draw(dice), dice),
    drawQuiet: (dice) => simulateTrial(quiet(draw(dice)), dice),
  };
}

const MASS = { start: 1000 };

/** The plain occasion: a room of 20–60 m³, a photometer or a counter, a background run, natural and total decays. */
export function pairedSetting(dice: Dice, intervalS: number = dice.oneOf([10, 20, 60])): Setting {
  const disturbance = drawDisturbance(dice);
  const mass = dice.uniform() < 0.5;
  const sensor: Sensor = mass
    ? massSensor(disturbance, intervalS)
    : numberSensor(disturbance, intervalS, dice.between(5, 50));
  return {
    volumeM3: dice.between(20, 60),
    kNaturalPerH: dice.between(0.15, 1.2),
    kAddedPerH: dice.between(2, 8),
    start: mass ? 1000 : dice.between(100, 1000),
    background: dice.between(1, 20) * (mass ? 1 : 0.1),
    sensors: [sensor],
    layout: pairedLengths(dice),
  };
}

export function pairedLengths(dice: Dice) {
  return { backgroundS: 900, naturalS: dice.between(1800, 3600), totalS: dice.between(1200, 2400) };
}
