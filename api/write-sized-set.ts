import { interval95 } from "../analysis/estimate.ts";
import type { PartRelative } from "../analysis/pooling/part-relative.ts";
import { airEnds } from "../analysis/sizing/air-ends.ts";
import { airInRoom } from "../analysis/sizing/air-in-room.ts";
import { levelAtSeat } from "../analysis/sizing/level-at-seat.ts";
import { probabilityOfReaching } from "../analysis/sizing/units-needed.ts";
import { parseUnit } from "../analysis/units.ts";
import type { Pooled } from "../db/entries.ts";
import type { StandingRow } from "../db/leaderboard-rows.ts";
import type { SizingQuestion } from "./sizing-question.ts";
import type { SetOfUnits } from "./sizing-sets.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import type { SizedSet, SizingQuery } from "./wire/sizing.ts";
import type { SoundOut } from "./wire/sound.ts";
import { costOf, wholeCost, writeCadr, writePooledNoise, writePower } from "./write-ranked-entry.ts";
import { writeYearlyCost } from "./yearly-cost.ts";

interface Context {
  readonly publicUrl: string;
  readonly unit: string;
  readonly question: SizingQuestion;
  readonly distanceM: number;
  readonly query: SizingQuery;
  readonly prediction: PartRelative;
  readonly needed: PartRelative;
}

/** So many units of an entry, as they do in a reader's own room. */
export function writeSizedSet(row: StandingRow, { units, probability }: SetOfUnits, context: Context): SizedSet {
  const { publicUrl, unit, query, prediction, needed } = context;
  const { pooled } = row;
  const flow = parseUnit(unit, "flow");
  const whole = wholeCost(row.configurationJson);
  return {
    entry: {
      id: pooled.entry,
      url: `${publicUrl}/v1/entries/${pooled.entry}`,
      configuration: { id: row.configuration, title: row.title, kind: row.kind },
      setting: row.setting,
      cadr: writeCadr(pooled, unit)!,
      prediction: {
        low: flow.fromBase(pooled.predictionLow!),
        high: flow.fromBase(pooled.predictionHigh!),
        unit: flow.code,
      },
      trials: pooled.trials,
      rooms: pooled.rooms,
      submitters: pooled.submitters,
      serious: pooled.serious,
      interest: JSON.parse(pooled.interestJson) as Record<string, number>,
      invented: row.invented,
    },
    units,
    clean_air: {
      value: flow.fromBase(units * pooled.cadrM3PerH!),
      low: flow.fromBase(units * pooled.predictionLow!),
      high: flow.fromBase(units * pooled.predictionHigh!),
      unit: flow.code,
    },
    probability,
    by_units: Array.from({ length: units + 1 }, (_, i) => ({
      units: i + 1,
      probability: probabilityOfReaching(i + 1, prediction, needed),
    })),
    noise: noiseAtSeat(pooled, units, context.distanceM),
    cost: whole && { value: whole.value * units, currency: whole.currency },
    power: powerOf(writePower(pooled), units),
    yearly_cost: writeYearlyCost(query, units, {
      powerW: pooled.powerW,
      statedPowerW: null,
      filterSet: costOf(row.configurationJson, "filter_set"),
      configurationJson: row.configurationJson,
    }),
    room: writeAir(pooled.cadrM3PerH!, units, context),
  };
}

/** Equal units read by the same meters are off by the same: their u adds up as the power does. */
function powerOf(one: QuantityOut | null, units: number): QuantityOut | null {
  if (one === null) return null;
  const [value, u, low, high] = [one.value, one.u, one.low, one.high].map((x) => units * x) as [
    number,
    number,
    number,
    number,
  ];
  return { value, unit: one.unit, u, dof: one.dof, low, high };
}

function noiseAtSeat(pooled: Pooled, units: number, distanceM: number): SoundOut | null {
  const distances = new Array<number>(units).fill(distanceM);
  const at1m = writePooledNoise(pooled);
  if (at1m === null) return null;
  if (at1m.value === null) {
    return { ...at1m, high: levelAtSeat({ value: at1m.high, u: 0, dof: Infinity }, distances).value };
  }
  const level = levelAtSeat({ value: at1m.value, u: at1m.u, dof: at1m.dof ?? Infinity }, distances);
  return { ...at1m, value: level.value, ...interval95(level) };
}

function writeAir(cadrM3PerH: number, units: number, { question, prediction }: Context): SizedSet["room"] {
  const { volumeM3, naturalPerH } = question.room;
  const air = airInRoom(units * cadrM3PerH, volumeM3.value, naturalPerH.value);
  const ends = airEnds(units, prediction, question.room);
  return {
    air_changes: air.airChangesPerH,
    air_changes_low: ends.airChangesPerH.low,
    air_changes_high: ends.airChangesPerH.high,
    half_life_minutes: air.halfLifeMinutes,
    half_life_minutes_low: ends.halfLifeMinutes.low,
    half_life_minutes_high: ends.halfLifeMinutes.high,
    clearance: air.clearance.map((each, i) => ({
      ...each,
      low: ends.clearance[i]!.low,
      high: ends.clearance[i]!.high,
    })),
    steady_ratio: air.steadyRatio,
    steady_ratio_low: ends.steadyRatio?.low ?? null,
    steady_ratio_high: ends.steadyRatio?.high ?? null,
  };
}
