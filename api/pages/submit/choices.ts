import {
  findConfiguration,
  listConfigurations,
  listInvented,
  listSettingsOf,
  type StoredConfiguration,
} from "../../../db/configurations.ts";
import { StoreError } from "../../../db/store-error.ts";
import type { Dependencies } from "../../environment.ts";
import { parseId } from "../../public-id.ts";
import { followMerges } from "../../resolve-configuration.ts";
import { findSimilarTo } from "../../similar-configurations.ts";
import { ConfigurationIn } from "../../wire/configuration.ts";
import { chosenOf } from "./form-fields.ts";

/** A stored configuration to choose, with the settings it runs at. */
export interface ConfigurationChoice {
  readonly id: string;
  readonly title: string;
  readonly kind: StoredConfiguration["kind"];
  readonly settings: readonly string[];
  /** Whether all tests of it are. */
  readonly invented: boolean;
  /** What it has otherwise than the one described, in words; null where none is compared. */
  readonly differs: readonly string[] | null;
}

const MOST_FOUND = 8;

/** Those found by words of their title, the one chosen before them; null where nothing is asked and nothing chosen. */
export async function choicesFor(
  { db }: Dependencies,
  words: string | undefined,
  chosen: string,
): Promise<readonly ConfigurationChoice[] | null> {
  const id = chosenOf(chosen)?.id;
  if (words === undefined && id === undefined) return null;
  const kept = id === undefined ? null : await findStored({ db }, id);
  const found = words === undefined ? [] : await listConfigurations(db, words.slice(0, 100), MOST_FOUND);
  return withSettings({ db }, [...(kept ? [kept] : []), ...found.filter((one) => one.id !== kept?.id)]);
}

/** Stored ones like the one described; null where the description is not complete yet. */
export async function choicesLike(
  { db, publicUrl }: Dependencies,
  described: unknown,
): Promise<readonly ConfigurationChoice[] | null> {
  const parsed = ConfigurationIn.safeParse(described);
  if (!parsed.success) return null;
  const similar = await findSimilarTo(db.read, publicUrl, parsed.data);
  const stored = await Promise.all(similar.map(({ id }) => findConfiguration(db.read, id)));
  const choices = await withSettings({ db }, stored);
  return choices.map((choice, i) => ({ ...choice, differs: similar[i]!.differs }));
}

/** A stored configuration, the one it was merged into where it was; null where there is none. */
export async function findStored({ db }: Pick<Dependencies, "db">, text: string): Promise<StoredConfiguration | null> {
  try {
    const { id } = await followMerges(db.read, parseId("configuration", text));
    return await findConfiguration(db.read, id);
  } catch (error) {
    if (error instanceof StoreError) return null;
    throw error;
  }
}

async function withSettings(
  { db }: Pick<Dependencies, "db">,
  stored: readonly StoredConfiguration[],
): Promise<ConfigurationChoice[]> {
  const ids = stored.map(({ id }) => id);
  const [settings, invented] = await Promise.all([listSettingsOf(db.read, ids), listInvented(db.read, ids)]);
  return stored.map(({ id, title, kind }) => {
    const labels = (settings.get(id) ?? []).map(({ label }) => label).filter((label) => label !== "");
    return { id, title, kind, settings: labels, invented: invented.has(id), differs: null };
  });
}
