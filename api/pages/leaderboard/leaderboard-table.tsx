import type { LeaderboardOut } from "../../wire/leaderboard.ts";
import { AS_TABLE } from "../as-table.ts";
import { IntervalAxis, rowScale, runsOffWords } from "../charts/interval-bar.tsx";
import { bandPhrase, unitWords } from "../figures.ts";
import { LeaderboardRow } from "./leaderboard-row.tsx";

/** The rows of a page with their intervals on one scale, and the choice of some to compare. */
export function LeaderboardTable({ board }: { readonly board: LeaderboardOut }) {
  const scale = rowScale(board.entries.map(({ cadr }) => cadr));
  return (
    <div class="board">
      <table {...AS_TABLE.table}>
        <caption>
          For {bandPhrase(board.band)}, pooled over laboratories; bars: the 95&nbsp;% interval.
          {runsOffWords(scale)}
        </caption>
        <thead>
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.head} class="tick" id="compare-words">
              Compare
            </th>
            <th {...AS_TABLE.head}>Rank</th>
            <th {...AS_TABLE.head}>Cleaner and setting</th>
            <th {...AS_TABLE.head} class="cadr">
              Clean air, {unitWords(board.unit)}
              <IntervalAxis scale={scale} />
            </th>
            <th {...AS_TABLE.head}>Noise at 1 m</th>
            <th {...AS_TABLE.head}>Power</th>
            <th {...AS_TABLE.head}>Price</th>
            <th {...AS_TABLE.head}>Tests</th>
            <th {...AS_TABLE.head}>Who paid</th>
          </tr>
        </thead>
        <tbody>
          {board.entries.map((entry, at) => (
            <LeaderboardRow entry={entry} board={board} scale={scale} at={at} />
          ))}
        </tbody>
      </table>
      <form id="compare" method="get" action="/compare" class="compare">
        {board.basis !== "all" && <input type="hidden" name="basis" value={board.basis} />}
        <button type="submit" name="do" value="compare">
          Compare those ticked
        </button>{" "}
        <small>two to six</small>
      </form>
    </div>
  );
}
