import type { ConfigurationIn } from "../../wire/configuration.ts";
import { AS_TABLE } from "../as-table.ts";
import type { FlowUnit } from "../reader.ts";
import { statedFlow } from "./stated-words.tsx";

type Part = ConfigurationIn["parts"][number];

/** What it is made of: what moves or cleans the air. */
export function PartsTable({ parts, flow }: { readonly parts: readonly Part[]; readonly flow: FlowUnit }) {
  return (
    <table class="stacks" {...AS_TABLE.table}>
      <caption>Parts that move or clean the air; flows as stated, without an interval</caption>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Part</th>
          <th {...AS_TABLE.head}>Size</th>
          <th {...AS_TABLE.head}>Stated flow of each</th>
          <th {...AS_TABLE.head}>Filter grade</th>
        </tr>
      </thead>
      <tbody>
        {parts.map((part) => (
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.rowHead}>
              {`${part.count} × ${part.part}: `}
              <bdi>{part.description}</bdi>
            </th>
            <td {...AS_TABLE.cell} data-head="Size">
              {part.size ? <bdi>{part.size}</bdi> : <NotStated />}
            </td>
            <td {...AS_TABLE.cell} data-head={hasFlow(part) ? "Stated flow of each" : undefined}>
              {part.stated_flow ? (
                <bdi>{statedFlow(part.stated_flow.value, flow)}</bdi>
              ) : (
                hasFlow(part) && <NotStated />
              )}
            </td>
            <td {...AS_TABLE.cell} data-head={hasGrade(part) ? "Filter grade" : undefined}>
              {part.filter_grade ? <Grade of={part.filter_grade} /> : hasGrade(part) && <NotStated />}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const SYSTEMS: Readonly<Record<string, string>> = { MERV: "MERV", ISO16890: "ISO 16890", EN1822: "EN 1822", other: "" };

/** A grade means something only with its rating system, and with the edition of that. */
function Grade({ of: { system, grade, edition } }: { readonly of: NonNullable<Part["filter_grade"]> }) {
  return (
    <bdi>
      {`${SYSTEMS[system]} ${grade}`.trim()}
      {edition && `, edition ${edition}`}
      {system === "other" && " (of a system not named)"}
    </bdi>
  );
}

/** Only what moves air has a flow, only what cleans it a grade, unless somebody states one all the same. */
const hasFlow = ({ part, stated_flow }: Part) => part === "fan" || stated_flow !== undefined;
const hasGrade = ({ part, filter_grade }: Part) => part === "filter" || filter_grade !== undefined;

function NotStated() {
  return <small class="missing">not stated</small>;
}
