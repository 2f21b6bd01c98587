import type { Estimate } from "../analysis/estimate.ts";
import { interval95 } from "../analysis/estimate.ts";
import { intervalOf, type PartRelative } from "../analysis/pooling/part-relative.ts";
import { airInRoom } from "../analysis/sizing/air-in-room.ts";
import { levelAtSeat } from "../analysis/sizing/level-at-seat.ts";
import { neededCadr } from "../analysis/sizing/target.ts";
import { probabilityOfReaching } from "../analysis/sizing/units-needed.ts";
import { parseUnit } from "../analysis/units.ts";
import type { Database } from "../db/database.ts";
import type { Pooled } from "../db/entries.ts";
import { listRows, type StandingRow } from "../db/leaderboard-rows.ts";
import { currentBoard } from "./leaderboard-index.ts";
import { select } from "./leaderboard-selection.ts";
import { flowUnit } from "./read-leaderboard.ts";
import { readSizingQuestion, type SizingQuestion } from "./sizing-question.ts";
import { findSets, type SetOfUnits } from "./sizing-sets.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import type { SizedSet, SizingOut, SizingQuery } from "./wire/sizing.ts";
import type { SoundOut } from "./wire/sound.ts";
import { costOf, wholeCost, writeCadr, writePooledNoise } from "./write-ranked-entry.ts";
import { writeYearlyCost } from "./yearly-cost.ts";

const CAUTIONS = [
  "Units at one spot do not mix the air of a room as the units of a test did: what is far from them clears later.",
  "Noise is computed for a free field; indoors it falls less with distance.",
];

/** Which sets of equal units do what a reader's own room asks for. */
export async function readSizing(db: Database, publicUrl: string, query: SizingQuery): Promise<SizingOut> {
  const unit = flowUnit(query.unit);
  const question = readSizingQuestion(query);
  const needed = neededCadr(question.target, question.room);
  const distanceM = query.distance ?? 1;
  const board = await currentBoard(db, query.band, "all");

  // From here to the next await the board stays as it is.
  const { kind, aerosol, min_rooms, unpaired } = query;
  const chosen = select(board, { kind, aerosol, min_rooms, unpaired }, { sort: "cadr" }, null);
  const { sets, excluded } = findSets(board, chosen.rows, needed, { ...query, distanceM });
  const shown = sets.map((set) => {
    const prediction = board.predictionAt(set.row);
    return { set, prediction, entry: board.ids[set.row]!, seq: board.seqs[set.row]! };
  });

  const rows = new Map((await listRows(db.read, "all", shown)).map((row) => [row.pooled.entry, row]));
  return {
    band: query.band,
    unit,
    target: writeTarget(question, needed, query, distanceM, unit),
    excluded: { ...chosen.excluded, ...excluded },
    sets: shown.map(({ set, prediction, entry }) =>
      writeSet(rows.get(entry)!, set, {
        publicUrl,
        unit,
        question,
        distanceM,
        query,
        chance: (units) => probabilityOfReaching(units, prediction, needed),
      }),
    ),
    cautions: CAUTIONS,
  };
}

interface Context {
  readonly publicUrl: string;
  readonly unit: string;
  readonly question: SizingQuestion;
  readonly distanceM: number;
  readonly query: SizingQuery;
  readonly chance: (units: number) => number;
}

function writeSet(row: StandingRow, { units, probability }: SetOfUnits, context: Context): SizedSet {
  const { publicUrl, unit, question, query } = context;
  const { pooled } = row;
  const { volumeM3, naturalPerH } = question.room;
  const air = airInRoom(units * pooled.cadrM3PerH!, volumeM3.value, naturalPerH.value);
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
      invented: row.invented,
    },
    units,
    probability,
    by_units: Array.from({ length: units + 1 }, (_, i) => ({ units: i + 1, probability: context.chance(i + 1) })),
    noise: noiseAtSeat(pooled, units, context.distanceM),
    cost: whole && { value: whole.value * units, currency: whole.currency },
    power: pooled.powerW === null ? null : { value: pooled.powerW * units, unit: "W" },
    yearly_cost: writeYearlyCost(query, units, {
      powerW: pooled.powerW,
      statedPowerW: null,
      filterSet: costOf(row.configurationJson, "filter_set"),
      configurationJson: row.configurationJson,
    }),
    room: {
      air_changes: air.airChangesPerH,
      half_life_minutes: air.halfLifeMinutes,
      clearance: [...air.clearance],
      steady_ratio: air.steadyRatio,
    },
  };
}

function noiseAtSeat(pooled: Pooled, units: number, distanceM: number): SoundOut | null {
  const distances = new Array<number>(units).fill(distanceM);
  const at1m = writePooledNoise(pooled);
  if (at1m === null) return null;
  if (at1m.value === null) {
    return { ...at1m, high: levelAtSeat({ value: at1m.high, u: 0, dof: Infinity }, distances).value };
  }
  const level: Estimate = levelAtSeat({ value: at1m.value, u: at1m.u, dof: at1m.dof ?? Infinity }, distances);
  return { ...at1m, value: level.value, ...interval95(level) };
}

function writeTarget(
  { target, room, naturalAssumed }: SizingQuestion,
  needed: PartRelative,
  query: SizingQuery,
  distanceM: number,
  unit: string,
): SizingOut["target"] {
  const { volumeM3, naturalPerH } = room;
  return {
    kind: target.kind === "air-changes" ? "air_changes" : target.kind,
    air_changes: needed.value / volumeM3.value,
    needed: writeNeeded(needed, unit),
    probability: query.probability,
    volume: { value: volumeM3.value, unit: "m3", u: volumeM3.u },
    natural: { value: naturalPerH.value, unit: "1/h", u: naturalPerH.u, assumed: naturalAssumed },
    distance: { value: distanceM, unit: "m" },
  };
}

function writeNeeded(needed: PartRelative, unitCode: string): QuantityOut {
  const unit = parseUnit(unitCode, "flow");
  const { low, high } = needed.u > 0 ? intervalOf(needed) : { low: needed.value, high: needed.value };
  return {
    value: unit.fromBase(needed.value),
    unit: unit.code,
    u: needed.u / unit.scale,
    dof: Number.isFinite(needed.dof) ? needed.dof : null,
    low: unit.fromBase(low),
    high: unit.fromBase(high),
  };
}
