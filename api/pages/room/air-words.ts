import type { SizedSet, SizingOut } from "../../wire/sizing.ts";
import { figures, range } from "../figures.ts";
import { percentRange } from "../percent.ts";

type Air = SizedSet["room"];

export interface AirLine {
  readonly what: string;
  readonly words: string;
  /** Of those that answer what was asked. */
  readonly first: boolean;
}

/** What units do in a room, each figure in words with its 95 % interval. */
export function airWords(room: Air, kind: SizingOut["target"]["kind"]): AirLine[] {
  const { air_changes, air_changes_low, air_changes_high } = room;
  return [
    {
      first: true,
      what: "air changes an hour",
      words: range({ value: air_changes, low: air_changes_low, high: air_changes_high }),
    },
    {
      first: false,
      what: "half-life, half gone after",
      words: minutesWords(room.half_life_minutes, room.half_life_minutes_low, room.half_life_minutes_high),
    },
    ...room.clearance.map(({ removed, minutes, low, high }) => ({
      first: removed === 0.99 && kind !== "ratio",
      what: `${Number((100 * removed).toPrecision(4))}\u00a0% gone after`,
      words: minutesWords(minutes, low, high),
    })),
    { first: kind === "ratio", what: "steady source, level", words: ratioWords(room) },
  ];
}

/** `33 (28 to 41) min`; an end that may never come is said. */
function minutesWords(value: number | null, low: number | null, high: number | null): string {
  if (value === null || low === null) return "perhaps never";
  if (high === null) {
    const shown = (x: number) => figures(x, value - low).value;
    return `${shown(value)} min (${shown(low)} or more, perhaps never)`;
  }
  return `${range({ value, low, high })} min`;
}

function ratioWords({ steady_ratio: value, steady_ratio_low: low, steady_ratio_high: high }: Air): string {
  if (value === null || low === null || high === null) return "cannot be told without a natural loss";
  return `${percentRange({ value, low, high })} of that without`;
}
