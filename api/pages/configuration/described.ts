import { listSettings, type StoredConfiguration, type StoredSetting } from "../../../db/configurations.ts";
import { listDescribedEntries } from "../../../db/entries.ts";
import { listBestEntries } from "../../best-entries.ts";
import { foldText } from "../../configuration-identity.ts";
import type { Dependencies } from "../../environment.ts";
import { readEntry } from "../../read-entry.ts";
import { parseWords } from "../../similar-configurations.ts";
import { type ConfigurationView, viewConfigurationWhole } from "../../view-configuration-whole.ts";
import type { ConfigurationIn } from "../../wire/configuration.ts";
import type { EntryOut } from "../../wire/entry.ts";
import type { FlowUnit } from "../reader.ts";
import type { Relative } from "./relatives.tsx";
import type { YearAsked } from "./year-form.tsx";

/** A configuration as its page shows it: one band, its settings with the chosen one first. */
export interface Described {
  readonly view: ConfigurationView;
  readonly words: ConfigurationIn;
  readonly settings: readonly StoredSetting[];
  /** Bands with entries, and how many tests each has. */
  readonly bands: ReadonlyMap<string, number>;
  readonly band: string;
  readonly entries: readonly EntryOut[];
  /** The one that is opened. */
  readonly opened: EntryOut | null;
  readonly relatives: readonly Relative[];
}

interface Asked {
  readonly band: string | undefined;
  readonly setting: string | undefined;
  readonly flow: FlowUnit;
  readonly year: YearAsked["query"];
}

const FIRST_BAND = "0.1-1.0";

/** Reads all of it; without a band asked for, that with most tests. */
export async function describeConfiguration(
  { db, publicUrl }: Dependencies,
  stored: StoredConfiguration,
  asked: Asked,
): Promise<Described> {
  const [view, settings, all] = await Promise.all([
    viewConfigurationWhole(db, publicUrl, stored),
    listSettings(db.read, stored.id),
    listDescribedEntries(db, { configuration: stored.id }),
  ]);
  const bands = new Map<string, number>();
  for (const { band, trials } of view.entries) bands.set(band, (bands.get(band) ?? 0) + trials);
  const most = [...bands].toSorted(([, a], [, b]) => b - a)[0]?.[0];
  const band = asked.band ?? most ?? FIRST_BAND;
  const here = all.filter((entry) => entry.band === band);
  const [entries, relatives] = await Promise.all([
    Promise.all(here.map((entry) => readEntry(db, publicUrl, entry, { ...asked.year, unit: asked.flow }))),
    readRelatives(db, view, band, asked.flow),
  ]);
  return {
    view,
    words: parseWords(stored.json),
    settings,
    bands,
    band,
    entries,
    opened: choose(entries, asked.setting),
    relatives,
  };
}

/** The setting asked for, else that of most tests; of one setting, real tests before invented ones. */
function choose(entries: readonly EntryOut[], setting: string | undefined): EntryOut | null {
  const trials = (entry: EntryOut) => entry.bases.all?.trials ?? 0;
  const wanted = entries.filter((entry) => setting !== undefined && foldText(entry.setting) === foldText(setting));
  const among = wanted.length > 0 ? wanted : entries;
  return among.toSorted((a, b) => Number(a.invented) - Number(b.invented) || trials(b) - trials(a))[0] ?? null;
}

async function readRelatives(
  db: Dependencies["db"],
  { similar, derivation }: ConfigurationView,
  band: string,
  unit: FlowUnit,
): Promise<Relative[]> {
  const parent = derivation && !similar.some(({ id }) => id === derivation.id) ? [derivation] : [];
  const all = [...parent.map(({ id, title }) => ({ id, title, differs: [] })), ...similar];
  const best = await listBestEntries(
    db.read,
    all.map(({ id }) => id),
    { unit, band },
  );
  return all.map(({ id, title, differs }) => ({ id, title, differs, best: best.get(id) ?? null }));
}
