import type { Database } from "../db/database.ts";
import { findBases } from "../db/entry-figures.ts";
import type { Band } from "../db/leaderboard.ts";
import { currentBoard } from "./leaderboard-index.ts";
import { standingsOf } from "./leaderboard-ranks.ts";
import { select } from "./leaderboard-selection.ts";
import { LeaderboardQuery } from "./wire/leaderboard.ts";

/** Where an entry stands in the list of its band as that opens. */
export interface Place {
  readonly id: string;
  readonly band: string;
  /** How many trials its figure is made of; 0 where none counts. */
  readonly trials: number;
  /** Null where the list leaves it out. */
  readonly listed: { readonly rank: number; readonly rankShared: boolean; readonly of: number } | null;
}

/** The places of a trial's entries, in their order. */
export async function readPlaces(
  db: Database,
  entries: readonly { readonly id: string; readonly band: string }[],
): Promise<Place[]> {
  return Promise.all(
    entries.map(async ({ id, band }) => {
      const figures = (await findBases(db.read, id)).get("all")?.pooled;
      const query = LeaderboardQuery.parse({ band });
      const board = await currentBoard(db, band as Band, query.basis);
      // From here the board stays as it is.
      const { rows } = select(board, query, query, null);
      const row = rows.find((each) => board.ids[each] === id);
      const [standing] = row === undefined ? [] : standingsOf(board, rows, [row]);
      const listed = standing ? { rank: standing.rank, rankShared: standing.rankShared, of: rows.length } : null;
      return { id, band, trials: figures?.cadrM3PerH == null ? 0 : figures.trials, listed };
    }),
  );
}
