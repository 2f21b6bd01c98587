import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { frontier } from "../../analysis/frontier.ts";
import { familyFor, rankRanges, ranksOf, simultaneousInterval } from "../../analysis/ranks.ts";
import { Board } from "../../api/leaderboard-board.ts";
import { pageOf } from "../../api/leaderboard-order.ts";
import { standingsOf } from "../../api/leaderboard-ranks.ts";
import { select } from "../../api/leaderboard-selection.ts";
import type { StandingFigures } from "../../db/leaderboard.ts";

/** An entry's figures as a database gives them; a coarse grid, so that ends and values meet often. */
const figures = (entry: string) =>
  fc
    .record({
      cadr: fc.integer({ min: 1, max: 12 }),
      u: fc.integer({ min: 1, max: 4 }),
      dof: fc.constantFrom(3, 9, null),
      noise: fc.option(fc.integer({ min: 30, max: 40 })),
      noiseU: fc.option(fc.constantFrom(0.5, 2), { freq: 4 }),
      single: fc.boolean(),
    })
    .map(({ cadr, u, dof, noise, noiseU, single }): StandingFigures => {
      const rated = noise !== null;
      return {
        entry,
        basis: "all",
        seq: 1,
        band: "0.1-1.0",
        invented: false,
        kind: "user_built",
        configuration: "cfg",
        cost: null,
        currency: null,
        cadrM3PerH: 20 * cadr,
        u: 2 * u,
        dof,
        relativeU: 0,
        low: 20 * cadr - 4 * u,
        high: 20 * cadr + 4 * u,
        predictionU: 4 * u,
        predictionDof: dof,
        predictionRelativeU: 0,
        trials: single ? 1 : 2,
        rooms: 1,
        unpaired: 1,
        aerosolsJson: '{"salt":1}',
        noiseDb: noise,
        noiseU: rated ? noiseU : null,
        noiseDof: null,
        powerW: null,
      };
    });
const registries = fc
  .integer({ min: 1, max: 40 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_, i) => figures(`ent-${String(i).padStart(2, "0")}`))));

const FILTERS = {
  kind: undefined,
  aerosol: undefined,
  noise_max: undefined,
  cost_max: undefined,
  power_max: undefined,
  min_rooms: undefined,
  unpaired: "exclude",
} as const;

function boardOf(rows: readonly StandingFigures[]): Board {
  const board = new Board("0.1-1.0", "all");
  board.apply(rows);
  return board;
}

describe("a board in one pass says what looking at every pair says", () => {
  test("ranks, their ranges and the frontier of every page of a filtered list", () => {
    fc.assert(
      fc.property(registries, fc.integer({ min: 1, max: 7 }), (rows, limit) => {
        const board = boardOf(rows);
        const shownRows = rows.filter(({ trials }) => trials > 1);
        const family = familyFor(rows.length);
        const intervals = shownRows.map(({ cadrM3PerH, u, dof }) =>
          simultaneousInterval({ value: cadrM3PerH!, u: u!, dof: dof ?? Infinity, relativeU: 0 }, family),
        );
        const ranges = rankRanges(intervals);
        const ranks = ranksOf(shownRows.map(({ cadrM3PerH }) => cadrM3PerH!));
        const { noiseLowDb, noiseHighDb, low, high } = board.figures;
        const placeOf = new Map(board.ids.map((id, i) => [id, i]));
        const rated = shownRows.filter(({ noiseDb }) => noiseDb !== null);
        const on = frontier(
          rated.map(({ entry }) => {
            const at = placeOf.get(entry)!;
            return {
              cadrM3PerH: { low: low[at]!, high: high[at]! },
              noiseDb: { low: noiseLowDb[at]!, high: noiseHighDb[at]! },
            };
          }),
        );

        const { rows: shown, excluded } = select(board, FILTERS, { sort: "cadr" }, null);
        expect(excluded.single_unpaired ?? 0).toBe(rows.length - shownRows.length);
        const walked: string[] = [];
        let after: Parameters<typeof pageOf>[3] = null;
        do {
          const page = pageOf(board, shown, "cadr", after, limit);
          for (const [i, standing] of standingsOf(board, shown, page.rows).entries()) {
            const id = board.ids[page.rows[i]!]!;
            const at = shownRows.findIndex(({ entry }) => entry === id);
            const flag = rated.findIndex(({ entry }) => entry === id);
            walked.push(id);
            expect(standing).toEqual({
              rank: ranks[at],
              rankShared: ranks.filter((rank) => rank === ranks[at]).length > 1,
              rankLow: ranges[at]!.best,
              rankHigh: ranges[at]!.worst,
              frontier: flag < 0 ? null : on[flag],
            });
          }
          after = page.next;
        } while (after !== null);
        expect([...walked].sort()).toEqual(shownRows.map(({ entry }) => entry).sort());
      }),
      { numRuns: 300, seed: 20261104 },
    );
  });

  test("changes one after another leave what all at once would, loaded or applied", () => {
    fc.assert(
      fc.property(registries, registries, (before, after) => {
        const changed = boardOf(before);
        for (const row of after) changed.apply([row]);
        const gone = after.slice(0, 3).map((row) => ({ ...row, cadrM3PerH: null }));
        changed.apply(gone);
        const last = new Map([...before, ...after, ...gone].map((row) => [row.entry, row]));
        const standing = [...last.values()].filter(({ cadrM3PerH }) => cadrM3PerH !== null);
        const strongest = standing.toSorted((a, b) => b.cadrM3PerH! - a.cadrM3PerH! || (a.entry < b.entry ? -1 : 1));
        const loaded = new Board("0.1-1.0", "all");
        for (let at = 0; at < strongest.length; at += 5) loaded.append(strongest.slice(at, at + 5));
        const seen = (board: Board) =>
          Array.from(board.order, (row) => [
            board.ids[row],
            board.figures.simultaneousLow[row],
            board.figures.simultaneousHigh[row],
            board.figures.noiseHighDb[row],
          ]);
        expect(seen(changed)).toEqual(seen(loaded));
        expect(seen(loaded).map(([id]) => id)).toEqual(strongest.map(({ entry }) => entry));
      }),
      { numRuns: 200, seed: 20261105 },
    );
  });
});
