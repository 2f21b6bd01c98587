import { driftingCleaner } from "../../analysis/simulate/drifting-cleaner.ts";
import { twoZones } from "../../analysis/simulate/two-zones.ts";
import { pairedSetting } from "./modelled-kinds.ts";
import type { Dice, Kind } from "./occasion.ts";
import { drawDisturbance, massSensor } from "./sensors.ts";
import { quiet, type Setting, simulateTrial } from "./simulated-trial.ts";

/** A room that is not mixed begins to fall too slowly, as a counter that lags does: the finding names both. */
const POOR_MIXING = ["mixing-not-forced", "undeclared-lag", "uneven-decay", "lack-of-fit", "long-memory"];

/**
 * Kinds of trial in which something happens that the estimator does not model. The truth is the cleaner's own rate, but for
 * "two-zones": there it is that of the room, V(λ − k_n) with λ the slower rate at which both zones at last fall.
 */
export const UNMODELLED_KINDS: readonly Kind[] = [
  kind("two-zones", POOR_MIXING, (dice) => {
    const { setting, exchangeM3PerH, counterShare } = twoZoneSetting(dice);
    const slowestPerH = slowestOfTwoZones(setting, exchangeM3PerH, counterShare);
    return { ...setting, trueKAddedPerH: slowestPerH - setting.kNaturalPerH };
  }),
  kind("two-zones-delivered", POOR_MIXING, (dice) => twoZoneSetting(dice).setting),
  kind("drifting-k", ["uneven-decay", "speed-change", "lack-of-fit"], (dice) => ({
    ...massSetting(dice),
    physics: driftingCleaner(dice.sign() * dice.between(0.1, 0.4)),
  })),
  kind("gain-drift", ["uneven-decay", "lack-of-fit", "long-memory"], (dice) => {
    const gainDrift = { excess: dice.sign() * dice.between(0.03, 0.1), settleS: dice.between(600, 1800) };
    return massSetting(dice, { model: { gainDrift } });
  }),
  kind("lag-quantised", ["undeclared-lag", "smoothing-unstated", "lack-of-fit"], (dice) => {
    const smoothing = { kind: "lag", timeS: dice.between(20, 90) } as const;
    return massSetting(dice, { model: { smoothing }, stepQ: dice.oneOf([1, 2, 5, 10]) });
  }),
  kind("long-memory", ["long-memory"], (dice) => {
    const setting = massSetting(dice);
    const sd = dice.between(0.01, 0.04);
    if (dice.uniform() < 0.5) {
      const tauS = setting.layout.totalS / 3;
      return { ...setting, sensors: [massSensor({ sd, tauS }, setting.sensors[0]!.model.intervalS)] };
    }
    const fractalNoise = { sd, fastestS: 10, slowestS: 3600 };
    const { intervalS } = setting.sensors[0]!.model;
    const sensors = [massSensor({ sd: 0, tauS: 60 }, intervalS, { model: { fractalNoise } })];
    return { ...setting, sensors, knownNoise: false };
  }),
];

function kind(name: string, rightFindings: readonly string[], draw: (dice: Dice) => Setting): Kind {
  // An interval claims this room's rate: of the cleaner's own, read too low where it mixes badly, it says nothing.
  const limited = name !== "two-zones-delivered";
  return {
    name,
    modelled: false,
    limited,
    rightFindings,
    draw: (dice) => simulateTrial(draw(dice), dice),
    drawQuiet: (dice) => simulateTrial(quiet(draw(dice)), dice),
  };
}

function massSetting(dice: Dice, more: Parameters<typeof massSensor>[2] = {}): Setting {
  const sensors = [massSensor(drawDisturbance(dice), dice.oneOf([10, 20, 60]), more)];
  return { ...pairedSetting(dice), start: 1000, background: dice.between(1, 20), sensors };
}

/** Air that goes round between cleaner and counter five to thirty times as fast as the cleaner cleans it. */
function twoZoneSetting(dice: Dice) {
  const mixed = massSetting(dice);
  const exchangeM3PerH = mixed.volumeM3 * mixed.kAddedPerH * dice.between(5, 30);
  const counterShare = 0.3 + 0.4 * dice.uniform();
  const setting = { ...mixed, physics: twoZones(exchangeM3PerH, counterShare), mixingFan: "off" } as const;
  return { setting, exchangeM3PerH, counterShare };
}

/** The smaller eigenvalue of the two zones' exchange, 1/h. */
function slowestOfTwoZones(setting: Setting, exchangeM3PerH: number, counterShare: number): number {
  const exchange = exchangeM3PerH / setting.volumeM3;
  const atCleaner = setting.kNaturalPerH + (setting.kAddedPerH + exchange) / (1 - counterShare);
  const atCounter = setting.kNaturalPerH + exchange / counterShare;
  const coupling = exchange ** 2 / (counterShare * (1 - counterShare));
  return (atCleaner + atCounter) / 2 - Math.sqrt(((atCleaner - atCounter) / 2) ** 2 + coupling);
}
