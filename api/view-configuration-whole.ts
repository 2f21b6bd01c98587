import { listSettings, type StoredConfiguration } from "../db/configurations.ts";
import type { Database } from "../db/database.ts";
import { listDescribedEntries } from "../db/entries.ts";
import { listEvents } from "../db/events.ts";
import { listMergedInto } from "../db/merged-into.ts";
import { findHandle } from "../db/submitters.ts";
import { listTrialsOf } from "../db/trials.ts";
import { parseWords } from "./similar-configurations.ts";
import { viewConfigurationEntries } from "./view-configuration-entries.ts";
import { viewConfiguration } from "./view-configurations.ts";

export type ConfigurationView = Awaited<ReturnType<typeof viewConfigurationWhole>>;

/** A configuration with who described it, its entries and trials, when its words were revised, and what was merged into it. */
export async function viewConfigurationWhole(db: Database, publicUrl: string, stored: StoredConfiguration) {
  const [view, settings, entries, trials, handle, events, merged] = await Promise.all([
    viewConfiguration(db.read, publicUrl, stored.id),
    listSettings(db.read, stored.id),
    listDescribedEntries(db, { configuration: stored.id }),
    listTrialsOf(db, { configuration: stored.id }),
    findHandle(db, stored.submitter),
    listEvents(db, stored.id),
    listMergedInto(db.read, stored.id),
  ]);
  return {
    ...view,
    submitter: { id: stored.submitter, handle },
    revised_at: events.filter(({ kind }) => kind === "configuration-revised").map(({ at }) => at),
    merged_from: merged,
    entries: await viewConfigurationEntries(db.read, publicUrl, parseWords(stored.json), settings, entries),
    trials: trials.map((trial) => ({ ...trial, url: `${publicUrl}/v1/trials/${trial.id}` })),
  };
}
