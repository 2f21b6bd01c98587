import { parseUnit } from "../../../analysis/units.ts";
import type { TestPlanOut } from "../../wire/test-plan.ts";
import { AS_TABLE } from "../as-table.ts";
import { figures, unitWords } from "../figures.ts";
import type { Reader } from "../reader.ts";
import { PART_WORDS } from "./part-words.ts";

const WIDTH = 240;

/** What the expected uncertainty is made of, the largest part first; shares of its square add up to 100 %. */
export function PlannedBudget({ plan, reader }: { readonly plan: TestPlanOut; readonly reader: Reader }) {
  const parts = plan.budget.toSorted((a, b) => b.share - a.share);
  const { fromBase } = parseUnit(reader.flow, "flow");
  return (
    <table {...AS_TABLE.table} class="planned-budget">
      <caption>What the expected uncertainty is made of</caption>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Part</th>
          <th {...AS_TABLE.head} class="number">
            Standard uncertainty, {unitWords(reader.flow)}
          </th>
          <th {...AS_TABLE.head} class="number">
            Share
          </th>
          <td {...AS_TABLE.cell} class="share" />
        </tr>
      </thead>
      <tbody>
        {parts.map(({ source, u, share }) => (
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.rowHead}>{PART_WORDS[source] ?? source}</th>
            <td {...AS_TABLE.cell} class="number">
              {figures(fromBase(u), fromBase(u)).value}
            </td>
            <td {...AS_TABLE.cell} class="number">
              {percent(share)}
            </td>
            <td {...AS_TABLE.cell} class="share">
              <svg width="100%" height="16" viewBox={`0 0 ${WIDTH} 16`} preserveAspectRatio="none" aria-hidden="true">
                <path class="axis-line" d="M.5 0V16" />
                <rect class="share-bar" x="0" y="3" height="10" width={Math.max(1, Math.round(WIDTH * share))} />
              </svg>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function percent(share: number): string {
  const whole = Math.round(100 * share);
  return whole === 0 && share > 0 ? "under 1\u00a0%" : `${whole}\u00a0%`;
}
