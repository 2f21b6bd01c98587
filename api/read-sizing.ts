import { interval95 } from "../analysis/estimate.ts";
import { intervalOf, type PartRelative } from "../analysis/pooling/part-relative.ts";
import { neededCadr } from "../analysis/sizing/target.ts";
import type { Database } from "../db/database.ts";
import { listRows } from "../db/leaderboard-rows.ts";
import { currentBoard } from "./leaderboard-index.ts";
import { select } from "./leaderboard-selection.ts";
import { flowUnit } from "./read-leaderboard.ts";
import { readSizingQuestion, type SizingQuestion } from "./sizing-question.ts";
import { findSets, type SetOfUnits } from "./sizing-sets.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import { quantityWithin } from "./wire/quantity-out.ts";
import type { SizingOut, SizingQuery } from "./wire/sizing.ts";
import { writeSizedSet } from "./write-sized-set.ts";

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
  const found = findSets(board, chosen.rows, needed, { ...query, distanceM });
  const standing = (set: SetOfUnits) => {
    const prediction = board.predictionAt(set.row);
    return { set, prediction, entry: board.ids[set.row]!, seq: board.seqs[set.row]! };
  };
  const [sets, nearMisses] = [found.sets.map(standing), found.nearMisses.map(standing)];

  const listed = await listRows(db.read, "all", [...sets, ...nearMisses]);
  const rows = new Map(listed.map((row) => [row.pooled.entry, row]));
  const write = ({ set, prediction, entry }: (typeof sets)[number]) =>
    writeSizedSet(rows.get(entry)!, set, { publicUrl, unit, question, distanceM, query, prediction, needed });
  return {
    band: query.band,
    unit,
    target: writeTarget(question, needed, query, distanceM, unit),
    excluded: { ...chosen.excluded, ...found.excluded },
    sets: sets.map(write),
    near_misses: nearMisses.map(write),
    cautions: CAUTIONS,
  };
}

function writeTarget(
  { target, room, naturalAssumed }: SizingQuestion,
  needed: PartRelative,
  query: SizingQuery,
  distanceM: number,
  unit: string,
): SizingOut["target"] {
  const { volumeM3, naturalPerH } = room;
  const loss = interval95(naturalPerH);
  return {
    kind: target.kind === "air-changes" ? "air_changes" : target.kind,
    air_changes: needed.value / volumeM3.value,
    needed: writeNeeded(needed, unit),
    probability: query.probability,
    volume: { value: volumeM3.value, unit: "m3", u: volumeM3.u, ...interval95(volumeM3) },
    natural: {
      value: naturalPerH.value,
      unit: "1/h",
      u: naturalPerH.u,
      low: Math.max(0, loss.low),
      high: loss.high,
      assumed: naturalAssumed,
    },
    distance: { value: distanceM, unit: "m" },
  };
}

/** Volume and loss taken as exactly known leave no interval. */
function writeNeeded(needed: PartRelative, unit: string): QuantityOut {
  const ends = needed.u > 0 ? intervalOf(needed) : { low: needed.value, high: needed.value };
  return quantityWithin(needed, ends, unit);
}
