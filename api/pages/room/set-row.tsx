import type { SizedSet, SizingOut } from "../../wire/sizing.ts";
import { AS_TABLE } from "../as-table.ts";
import { IntervalBar, type RowScale } from "../charts/interval-bar.tsx";
import { CleanerName } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { chance, chanceBelow } from "../percent.ts";
import { Money, Quantity, Sound } from "../quantity.tsx";
import { SeriousLine } from "../serious.tsx";
import { PaidLines } from "../who-paid.tsx";
import { airWords } from "./air-words.ts";

interface Props {
  readonly set: SizedSet;
  readonly sizing: SizingOut;
  readonly scale: RowScale;
}

/** One set: so many units of a cleaner, and what they do in the room. */
export function SetRow({ set, sizing, scale }: Props) {
  const { entry, units, noise } = set;
  return (
    <tr {...AS_TABLE.row}>
      <th {...AS_TABLE.rowHead} class="cleaner">
        {`${units} × `}
        <CleanerName entry={entry} band={sizing.band} />
        <small class="line">{testWords(entry)}</small>
        <PaidLines interest={entry.interest} />
        <SeriousLine trials={entry.trials} serious={entry.serious} entry={entry.id} />
      </th>
      <td {...AS_TABLE.cell} class="delivers" data-head="Clean air of the set">
        <Quantity of={set.clean_air} ranged />
        <IntervalBar scale={scale} {...set.clean_air} need={Math.max(0, sizing.target.needed.value)} />
        <small class="line">
          each <Quantity of={entry.cadr} /> over all tests
        </small>
      </td>
      <td {...AS_TABLE.cell} class="inline" data-head="Reaches it with">
        <span class="line">{chance(set.probability)}</span>
        {otherUnits(set).map((other) => (
          <small class="line">
            {other.units > units
              ? `one more: ${chance(other.probability)}`
              : `one fewer: ${chanceBelow(other.probability, sizing.target.probability)}`}
          </small>
        ))}
      </td>
      <td {...AS_TABLE.cell} data-head="Noise at the seat">
        <Sound of={noise} />
      </td>
      <td {...AS_TABLE.cell} class="air" data-head="In this room">
        <Air room={set.room} kind={sizing.target.kind} />
      </td>
      <td {...AS_TABLE.cell} class="inline" data-head="Price and power">
        <span class="line">
          <Money of={set.cost} missing="price not stated" />
        </span>
        <span class="line">
          <Quantity of={set.power} missing="power not measured" />
        </span>
        <Yearly of={set.yearly_cost} />
      </td>
    </tr>
  );
}

/** What a unit more or less would change: one more where it is not nearly sure yet, one fewer where it is still likelier than not. */
function otherUnits({ units, probability, by_units }: SizedSet): SizedSet["by_units"] {
  return by_units.filter((each) =>
    each.units === units + 1 ? probability < 0.99 : each.units === units - 1 && each.probability >= 0.5,
  );
}

/** What is asked for most is seen at once, the rest one tap further. */
function Air({ room, kind }: { room: SizedSet["room"]; kind: SizingOut["target"]["kind"] }) {
  const lines = airWords(room, kind);
  const shown = lines.filter(({ first }) => first);
  return (
    <>
      {shown.map((line) => (
        <AirLine {...line} />
      ))}
      <details>
        <summary>more</summary>
        {lines
          .filter(({ first }) => !first)
          .map((line) => (
            <AirLine {...line} />
          ))}
      </details>
    </>
  );
}

function AirLine({ what, words }: { readonly what: string; readonly words: string }) {
  return (
    <span class="line">
      <small>{`${what} `}</small>
      {words}
    </span>
  );
}

/** What a year costs, as far as it is known; null where no hours were given. */
function Yearly({ of }: { readonly of: SizedSet["yearly_cost"] }) {
  if (of === null) return null;
  if (of.total) {
    return (
      <small class="line">
        <Money of={rounded(of.total)} /> a year
      </small>
    );
  }
  return (
    <>
      <small class="line">
        {of.electricity ? (
          <>
            electricity <Money of={rounded(of.electricity)} /> a year
          </>
        ) : (
          "a year’s electricity: power or its price is not known"
        )}
      </small>
      <small class="line">
        {of.filters ? (
          <>
            filters <Money of={rounded(of.filters)} /> a year
          </>
        ) : (
          "a year’s filters: their life or price is not stated"
        )}
      </small>
    </>
  );
}

function rounded({ value, currency }: { value: number; currency: string }) {
  return { value: value < 10 ? Number(value.toFixed(2)) : Math.round(value), currency };
}
