import { listConfigurations } from "../../../db/configurations.ts";
import type { Database } from "../../../db/database.ts";
import { type DescribedEntry, findEntry, listDescribedEntries } from "../../../db/entries.ts";
import { StoreError } from "../../../db/store-error.ts";
import { parseId } from "../../public-id.ts";
import { readLeaderboard } from "../../read-leaderboard.ts";
import { LeaderboardQuery } from "../../wire/leaderboard.ts";
import type { Chosen } from "./chosen.ts";

/** An entry that may be ticked. */
export interface Choice {
  readonly id: string;
  readonly title: string;
  readonly setting: string;
  readonly kind: "user_built" | "commercial";
  readonly invented: boolean;
  readonly ticked: boolean;
}

const MOST_LISTED = 20;
const MOST_FOUND = 12;

/** Entries to tick: those chosen already, then those whose title holds the words, or the strongest of the band. */
export async function listChoices(db: Database, chosen: Chosen): Promise<Choice[]> {
  const kept = (await Promise.all(chosen.ids.map((id) => findChosen(db, id)))).filter((entry) => entry !== null);
  const listed = chosen.find ? await listFound(db, chosen) : await listStrongest(db, chosen);
  const others = listed.filter(({ id }) => !kept.some((entry) => entry.id === id));
  return [
    ...kept.map((entry) => ({ ...entry, ticked: true })),
    ...others.map((entry) => ({ ...entry, ticked: false })),
  ];
}

type Untold = Omit<Choice, "ticked">;

async function findChosen(db: Database, text: string): Promise<Untold | null> {
  try {
    return describe(await findEntry(db, parseId("entry", text)));
  } catch (error) {
    if (error instanceof StoreError) return null;
    throw error;
  }
}

async function listFound(db: Database, { band, find }: Chosen): Promise<Untold[]> {
  const found = await listConfigurations(db, find, MOST_FOUND);
  const entries = await Promise.all(found.map(({ id }) => listDescribedEntries(db, { configuration: id })));
  return entries
    .flat()
    .filter((entry) => entry.band === band)
    .map(describe);
}

async function listStrongest(db: Database, { band, basis }: Chosen): Promise<Untold[]> {
  const query = LeaderboardQuery.parse({ band, basis, limit: MOST_LISTED });
  const { entries } = await readLeaderboard(db, query, "http://here/");
  return entries.map(({ id, configuration: { title, kind }, setting, invented }) => ({
    id,
    title,
    setting,
    kind,
    invented,
  }));
}

function describe({ id, title, setting, kind, invented }: DescribedEntry): Untold {
  return { id, title, setting, kind, invented };
}
