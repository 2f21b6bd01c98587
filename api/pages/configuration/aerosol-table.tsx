import type { EntryOut } from "../../wire/entry.ts";
import { aerosolOfAll } from "../aerosol-words.ts";
import { AS_TABLE } from "../as-table.ts";
import { listed, testWords } from "../counts.ts";
import { Between, Quantity } from "../quantity.tsx";
import { WhoPaid } from "../who-paid.tsx";

/** An entry's figures by the aerosol its tests used, which are never ranked. */
export function AerosolTable({ entry }: { readonly entry: EntryOut }) {
  const { by_aerosol: all, trials } = entry;
  const counting = trials.filter(({ state, cadr }) => cadr !== null && (state === "listed" || state === "questioned"));
  const aerosolWords = (kind: string) =>
    aerosolOfAll(
      kind,
      counting.filter(({ aerosol }) => aerosol === kind),
    );
  if (all.length === 0) return null;
  if (all.length === 1) return <p>{`Aerosol of all tests that count: ${aerosolWords(all[0]!.aerosol)}.`}</p>;
  return (
    <>
      <h3>By aerosol</h3>
      <table class="stacks" {...AS_TABLE.table}>
        <caption>
          Pooled apart for {listed(all.map(({ aerosol }) => aerosolWords(aerosol)))}; never ranked. 95&nbsp;% intervals
        </caption>
        <thead>
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.head}>Aerosol</th>
            <th {...AS_TABLE.head}>Clean air</th>
            <th {...AS_TABLE.head}>In another room</th>
            <th {...AS_TABLE.head}>Tests</th>
            <th {...AS_TABLE.head}>Who paid</th>
          </tr>
        </thead>
        <tbody>
          {all.map((one) => (
            <tr {...AS_TABLE.row}>
              <th {...AS_TABLE.rowHead}>{aerosolWords(one.aerosol)}</th>
              <td {...AS_TABLE.cell} data-head="Clean air">
                <Quantity of={one.cadr} />
              </td>
              <td {...AS_TABLE.cell} data-head="In another room">
                <Between of={one.prediction} />
              </td>
              <td {...AS_TABLE.cell} data-head="Tests">
                {testWords(one)}
              </td>
              <td {...AS_TABLE.cell} data-head="Who paid">
                <WhoPaid interest={one.interest} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
