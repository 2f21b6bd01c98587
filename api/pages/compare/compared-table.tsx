import type { Compared, ComparisonOut } from "../../wire/comparison.ts";
import { AS_TABLE } from "../as-table.ts";
import { IntervalAxis, IntervalBar, type RowScale, rowScale, runsOffWords } from "../charts/interval-bar.tsx";
import { CleanerName } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { unitWords } from "../figures.ts";
import { Missing, Money, Quantity, Sound } from "../quantity.tsx";
import { SeriousLine } from "../serious.tsx";
import { PaidLines } from "../who-paid.tsx";
import { letterOf } from "./letters.ts";

/** Each result with its intervals on one scale. */
export function ComparedTable({ comparison }: { readonly comparison: ComparisonOut }) {
  const { entries, unit } = comparison;
  const scale = rowScale(entries.flatMap(({ cadr }) => (cadr ? [cadr] : [])));
  const letter = letterOf(comparison);
  return (
    <div class="board">
      <table {...AS_TABLE.table}>
        <caption>
          Clean air delivery rates, pooled over laboratories, with their 95 % intervals. Noise is the A-weighted sound
          pressure level. Prices are as stated and have no interval.
          {runsOffWords(scale)}
        </caption>
        <thead>
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.head}>Called</th>
            <th {...AS_TABLE.head}>Cleaner and setting</th>
            <th {...AS_TABLE.head} class="cadr">
              Clean air, {unitWords(unit)}
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
          {entries.map((entry) => (
            <Row entry={entry} letter={letter(entry.id)} scale={scale} band={comparison.band} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Row({ entry, letter, scale, band }: { entry: Compared; letter: string; scale: RowScale; band: string }) {
  const { cadr } = entry;
  return (
    <tr {...AS_TABLE.row}>
      <td {...AS_TABLE.cell} class="rank" data-head="Called">
        <span class="place">{letter}</span>
      </td>
      <th {...AS_TABLE.rowHead} class="cleaner">
        <CleanerName entry={entry} band={band} />
      </th>
      <td {...AS_TABLE.cell} class="cadr" data-head="Clean air">
        <Quantity of={cadr} missing="no test counts at present" />
        {cadr && <IntervalBar scale={scale} {...cadr} />}
      </td>
      <td {...AS_TABLE.cell} data-head="Noise at 1 m">
        <Sound of={entry.noise} />
      </td>
      <td {...AS_TABLE.cell} data-head="Power">
        <Quantity of={entry.power} missing="not measured" />
      </td>
      <td {...AS_TABLE.cell} data-head="Price">
        <Money of={entry.cost} />
      </td>
      <td {...AS_TABLE.cell} data-head="Tests">
        {testWords(entry)}
        <SeriousLine trials={entry.trials} serious={entry.serious} entry={entry.id} />
      </td>
      <td {...AS_TABLE.cell} data-head="Who paid">
        {entry.trials === 0 && <Missing why="no test counts" />}
        <PaidLines interest={entry.interest} />
      </td>
    </tr>
  );
}
