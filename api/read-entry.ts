import type { Database } from "../db/database.ts";
import type { DescribedEntry } from "../db/entries.ts";
import { findBases, findStated } from "../db/entry-figures.ts";
import { listTrialsOf } from "../db/trials.ts";
import { poolByAerosol } from "./pool-by-aerosol.ts";
import { flowUnit } from "./read-leaderboard.ts";
import { readStated } from "./stated-figures.ts";
import type { EntryOut, EntryQuery } from "./wire/entry.ts";
import { writeBasis } from "./write-basis.ts";
import { costOf } from "./write-ranked-entry.ts";
import { writeYearlyCost } from "./yearly-cost.ts";

const BASES = ["all", "independent", "paired", "independent_paired"] as const;

/** All there is to say of an entry: its figures on every basis and by aerosol, what is stated of it, costs and trials. */
export async function readEntry(
  db: Database,
  publicUrl: string,
  entry: DescribedEntry,
  query: EntryQuery,
): Promise<EntryOut> {
  const unit = flowUnit(query.unit);
  const [bases, trials, words, byAerosol] = await Promise.all([
    findBases(db.read, entry.id),
    listTrialsOf(db, { setting: entry.settingId, invented: entry.invented }),
    findStated(db.read, entry.settingId),
    poolByAerosol(db.read, entry, unit),
  ]);
  const { configuration, title, kind, setting, band, invented } = entry;
  const stated = readStated(words.statedJson);
  const costs = {
    whole: costOf(words.configurationJson, "whole"),
    filter_set: costOf(words.configurationJson, "filter_set"),
    electricity_year: costOf(words.configurationJson, "electricity_year"),
  };
  const written = Object.fromEntries(
    BASES.map((basis) => {
      const figures = bases.get(basis);
      return [basis, figures ? writeBasis(figures, costs.whole, unit) : null];
    }),
  ) as EntryOut["bases"];
  return {
    id: entry.id,
    url: `${publicUrl}/v1/entries/${entry.id}`,
    configuration: { id: configuration, title, kind, url: `${publicUrl}/v1/configurations/${configuration}` },
    setting,
    band: band as EntryOut["band"], // its CHECK allows no other
    invented,
    bases: written,
    by_aerosol: byAerosol,
    stated: stated.out,
    costs,
    yearly_cost: writeYearlyCost(query, 1, {
      powerW: bases.get("all")?.pooled.powerW ?? null,
      statedPowerW: stated.powerW,
      filterSet: costs.filter_set,
      configurationJson: words.configurationJson,
    }),
    trials: trials.map(({ setting: _, ...trial }) => ({ ...trial, url: `${publicUrl}/v1/trials/${trial.id}` })),
  };
}
