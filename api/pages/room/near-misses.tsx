import type { SizingOut } from "../../wire/sizing.ts";
import { AS_TABLE } from "../as-table.ts";
import { CleanerName } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { chance, chanceBelow } from "../percent.ts";
import { Money, Quantity, Sound } from "../quantity.tsx";
import { SeriousLine } from "../serious.tsx";
import { PaidLines } from "../who-paid.tsx";
import { quieterWords } from "./noise-order.ts";

/** Sets that keep to the limits and are likelier than not to do it, though less surely than asked. */
export function NearMisses({ sizing }: { readonly sizing: SizingOut }) {
  const { near_misses: near, sets, target, band } = sizing;
  if (near.length === 0) return null;
  const quieter = quieterWords(near, sets);
  return (
    <>
      <h3>Near misses</h3>
      <p>
        These keep to every limit you set and are likelier than not to reach what is needed, but less surely than{" "}
        {chance(target.probability)}; one more of each would pass a limit.{quieter && ` ${quieter}`}
      </p>
      <table {...AS_TABLE.table} class="stacks near">
        <thead>
          <tr {...AS_TABLE.row}>
            <th {...AS_TABLE.head}>Set</th>
            <th {...AS_TABLE.head}>Reaches it, probability</th>
            <th {...AS_TABLE.head}>Clean air of the set</th>
            <th {...AS_TABLE.head}>Noise at the seat</th>
            <th {...AS_TABLE.head}>Price</th>
            <th {...AS_TABLE.head}>Power</th>
          </tr>
        </thead>
        <tbody>
          {near.map(({ entry, units, probability, clean_air, noise, cost, power }) => (
            <tr {...AS_TABLE.row}>
              <th {...AS_TABLE.rowHead}>
                {`${units} × `}
                <CleanerName entry={entry} band={band} />
                <small class="line">{testWords(entry)}</small>
                <PaidLines interest={entry.interest} />
                <SeriousLine trials={entry.trials} serious={entry.serious} entry={entry.id} />
              </th>
              <td {...AS_TABLE.cell} data-head="Reaches it with">
                {chanceBelow(probability, target.probability)}
              </td>
              <td {...AS_TABLE.cell} data-head="Clean air of the set">
                <Quantity of={clean_air} ranged />
              </td>
              <td {...AS_TABLE.cell} data-head="Noise at the seat">
                <Sound of={noise} />
              </td>
              <td {...AS_TABLE.cell} data-head="Price">
                <Money of={cost} />
              </td>
              <td {...AS_TABLE.cell} data-head="Power">
                <Quantity of={power} missing="not measured" />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
