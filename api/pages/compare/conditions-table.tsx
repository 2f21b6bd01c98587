import type { Compared } from "../../wire/comparison.ts";
import { AS_TABLE } from "../as-table.ts";
import { PAIRED_WORDS, UNPAIRED_WORDS } from "../basis-words.ts";
import { Missing } from "../quantity.tsx";
import { conditionWords } from "./condition-words.ts";

const NAMES: Readonly<Record<string, string>> = {
  aerosol: "Aerosol",
  ventilation: "Ventilation",
  mixing_fan: "Mixing fan",
  filter: "State of the filter",
  counter: "Counter",
  natural_loss: "Natural loss",
  room: "Room",
};

/** How often each condition occurs among the tests of each result. */
export function ConditionsTable({ entries }: { readonly entries: readonly Compared[] }) {
  return (
    <table {...AS_TABLE.table} class="stacks">
      <caption>
        Conditions of the tests that count, each with the number of tests. Paired: {PAIRED_WORDS}. Unpaired:{" "}
        {UNPAIRED_WORDS}
      </caption>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Condition</th>
          {entries.map((_, i) => (
            <th {...AS_TABLE.head}>{"ABCDEF"[i]}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {Object.entries(NAMES).map(([name, words]) => (
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.rowHead}>{words}</th>
            {entries.map(({ conditions }, i) => (
              <td {...AS_TABLE.cell} data-head={"ABCDEF"[i]}>
                <Counts of={conditions[name] ?? {}} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Counts({ of }: { readonly of: Readonly<Record<string, number>> }) {
  const counts = Object.entries(of);
  if (counts.length === 0) return <Missing why="no test counts" />;
  return <>{counts.map(([value, count]) => `${count} × ${conditionWords(value)}`).join(", ")}</>;
}
