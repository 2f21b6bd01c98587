import type { LeaderboardOut, RankedEntry } from "../../wire/leaderboard.ts";
import { AS_TABLE } from "../as-table.ts";
import { IntervalBar, type RowScale } from "../charts/interval-bar.tsx";
import { CleanerName } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { figures, plusMinus, unitWords } from "../figures.ts";
import { Missing, Money, Quantity, Sound } from "../quantity.tsx";
import { SeriousLine } from "../serious.tsx";
import { PaidLines } from "../who-paid.tsx";

interface Props {
  readonly entry: RankedEntry;
  readonly board: LeaderboardOut;
  readonly scale: RowScale;
  /** Place on the page: ids are made of it. */
  readonly at: number;
}

/** One result: a row of the table, on a phone a block. */
export function LeaderboardRow({ entry, board, scale, at }: Props) {
  const { cadr, noise, power, cost } = entry;
  return (
    <tr {...AS_TABLE.row}>
      <td {...AS_TABLE.cell} class="tick">
        <label>
          <input
            type="checkbox"
            name="entries"
            value={entry.id}
            form="compare"
            aria-labelledby={`compare-words title-${at}`}
          />
          <span>compare</span>
        </label>
      </td>
      <td {...AS_TABLE.cell} class="rank" data-head="Rank">
        <Rank entry={entry} />
      </td>
      <th {...AS_TABLE.rowHead} class="cleaner">
        <CleanerName entry={entry} band={board.band} id={`title-${at}`} />
      </th>
      <td {...AS_TABLE.cell} class="cadr" data-head="Clean air">
        <Quantity of={cadr} />
        <IntervalBar scale={scale} {...cadr} />
      </td>
      <td {...AS_TABLE.cell} data-head="Noise at 1 m">
        <Sound of={noise} />
        {board.sort === "noise_for_300" && <Together of={entry.noise_for_300} />}
      </td>
      <td {...AS_TABLE.cell} data-head="Power">
        <Quantity of={power} missing="not measured" />
        {board.sort === "cadr_per_watt" && <Per of={entry.cadr_per_watt} per="W" unit={board.unit} />}
      </td>
      <td {...AS_TABLE.cell} data-head="Price">
        <Money of={cost} />
        {board.sort === "cadr_per_cost" && cost && (
          <Per of={entry.cadr_per_cost} per={cost.currency} unit={board.unit} />
        )}
      </td>
      <td {...AS_TABLE.cell} data-head="Tests">
        <Tests entry={entry} />
      </td>
      <td {...AS_TABLE.cell} class="who" data-head="Who paid">
        <PaidLines interest={entry.interest} />
      </td>
    </tr>
  );
}

/** `3, may be 1–7`; with a sign of equality where another one has the same figure. */
function Rank({ entry: { rank, rank_shared, rank_low, rank_high } }: { entry: RankedEntry }) {
  return (
    <span>
      <span class="place">{`${rank_shared ? "=" : ""}${rank}`}</span>
      {rank_low !== rank_high && <small>{`, may be ${rank_low}–${rank_high}`}</small>}
    </span>
  );
}

function Tests({ entry }: { entry: RankedEntry }) {
  const { trials, unpaired } = entry;
  return (
    <>
      {testWords(entry)}
      <SeriousLine trials={trials} serious={entry.serious} entry={entry.id} />
      {unpaired > 0 && <small class="line">{`${unpaired === trials ? "all" : unpaired} unpaired`}</small>}
    </>
  );
}

function Per({ of, per, unit }: { of: RankedEntry["cadr_per_cost"]; per: string; unit: string }) {
  return of && <small class="line">{`${plusMinus(of)} ${unitWords(unit)} per ${per}`}</small>;
}

/** So many units for 300 m³/h, and how loud they are together. */
function Together({ of }: { of: RankedEntry["noise_for_300"] }) {
  if (of === null) return <Missing why="no number of units brings 300 m³/h" />;
  const { value, low, high, units } = of;
  const level = value === null || low === null ? `under ${figures(high, 1).value}` : plusMinus({ value, low, high });
  return <small class="line">{`${units === 1 ? "one unit" : `${units} together`}: ${level} dB(A)`}</small>;
}
