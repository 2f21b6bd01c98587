import type { Connection } from "../db/database.ts";
import type { Member } from "../db/members.ts";
import { listConditions } from "../db/trial-conditions.ts";

/** How often each condition occurs among an entry's trials: `{ aerosol: { salt: 3 }, … }`. */
export type Conditions = Readonly<Record<string, Readonly<Record<string, number>>>>;

const NAMES = {
  aerosol: "aerosol",
  ventilation: "ventilation",
  mixing_fan: "mixing fan",
  filter: "state of the filter",
  counter: "counter",
  natural_loss: "natural loss",
  room: "room",
} as const;
/** A rate measured in a closet and one in a hall are not had under like conditions (m³; common practice, no source). */
const SMALL_ROOM_M3 = 15;
const LARGE_ROOM_M3 = 80;

/** The conditions of all trials that count. */
export async function readConditions(connection: Connection, members: readonly Member[]): Promise<Conditions> {
  const told = await listConditions(
    connection,
    members.map(({ trial }) => trial),
  );
  const toldOf = new Map(told.map((conditions) => [conditions.trial, conditions]));
  const counts: Record<keyof typeof NAMES, Record<string, number>> = {
    aerosol: {},
    ventilation: {},
    mixing_fan: {},
    filter: {},
    counter: {},
    natural_loss: {},
    room: {},
  };
  for (const member of members) {
    const trial = toldOf.get(member.trial);
    const values: Record<keyof typeof NAMES, string> = {
      aerosol: member.aerosol,
      ventilation: trial?.ventilation ?? "unknown",
      mixing_fan: trial?.mixingFan ?? "unknown",
      filter: trial?.filterCondition ?? "unknown",
      counter: trial?.counterPrinciple ?? "other",
      natural_loss: member.paired ? "paired" : "unpaired",
      room: member.volumeM3 < SMALL_ROOM_M3 ? "small" : member.volumeM3 > LARGE_ROOM_M3 ? "large" : "ordinary",
    };
    for (const name of Object.keys(NAMES) as (keyof typeof NAMES)[]) {
      counts[name][values[name]] = (counts[name][values[name]] ?? 0) + 1;
    }
  }
  return counts;
}

/** In what two entries were tested differently, in words: conditions that one of them knows and the other does not. */
export function conditionDifferences(
  a: Conditions,
  b: Conditions,
  wordsOf: (value: string) => string = (value) => value.replaceAll("_", " "),
): string[] {
  return (Object.keys(NAMES) as (keyof typeof NAMES)[]).flatMap((name) => {
    const [mine, theirs] = [Object.keys(a[name] ?? {}).sort(), Object.keys(b[name] ?? {}).sort()];
    if (mine.length === 0 || theirs.length === 0 || mine.join() === theirs.join()) return [];
    const words = (values: string[]) => values.map(wordsOf).join(" and ");
    return [`${NAMES[name]}: ${words(mine)} against ${words(theirs)}`];
  });
}
