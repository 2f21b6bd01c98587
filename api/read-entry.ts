import type { Database } from "../db/database.ts";
import type { DescribedEntry } from "../db/entries.ts";
import { findBases, findStated } from "../db/entry-figures.ts";
import { listRoomCorrections } from "../db/room-corrections.ts";
import { findSpread } from "../db/spreads.ts";
import { listTrialRows, type TrialRow } from "../db/trial-rows.ts";
import { againstStated } from "./against-stated.ts";
import { byAerosol, listMembers } from "./pool-by-aerosol.ts";
import { poolByRoom } from "./pool-by-room.ts";
import { flowUnit } from "./read-leaderboard.ts";
import { parseWords } from "./similar-configurations.ts";
import { readStated } from "./stated-figures.ts";
import type { EntryOut, EntryQuery } from "./wire/entry.ts";
import { quantityOut } from "./wire/quantity.ts";
import { writeBasis } from "./write-basis.ts";
import { costOf } from "./write-ranked-entry.ts";
import { writeYearlyCost } from "./yearly-cost.ts";

const BASES = ["all", "independent", "paired", "independent_paired"] as const;

/** All there is to say of an entry: its figures on every basis, by aerosol and by room, what is stated of it, costs and trials. */
export async function readEntry(
  db: Database,
  publicUrl: string,
  entry: DescribedEntry,
  query: EntryQuery,
): Promise<EntryOut> {
  const unit = flowUnit(query.unit);
  const [bases, trials, words, members, newestSpread] = await Promise.all([
    findBases(db.read, entry.id),
    listTrialRows(db.read, entry),
    findStated(db.read, entry.settingId),
    listMembers(db.read, entry),
    findSpread(db.read),
  ]);
  const corrections = await listRoomCorrections(db.read, [...new Set(members.map(({ room }) => room))]);
  const spread = bases.get("all")?.spread ?? newestSpread; // rooms add up to the figure that stands
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
    by_aerosol: byAerosol(members, newestSpread, unit),
    by_room: poolByRoom(members, { spread, trials, corrections, publicUrl, unit }),
    stated: stated.out,
    against_stated: againstStated(
      bases.get("all")?.pooled ?? null,
      words.statedJson,
      parseWords(words.configurationJson).parts,
    ),
    costs,
    yearly_cost: writeYearlyCost(query, 1, {
      powerW: bases.get("all")?.pooled.powerW ?? null,
      statedPowerW: stated.powerW,
      filterSet: costs.filter_set,
      configurationJson: words.configurationJson,
    }),
    trials: trials.map((trial) => writeTrial(trial, publicUrl, unit)),
  };
}

function writeTrial(row: TrialRow, publicUrl: string, unit: string): EntryOut["trials"][number] {
  const { cadrM3PerH: value, cadrU: u } = row;
  return {
    id: row.id,
    url: `${publicUrl}/v1/trials/${row.id}`,
    state: row.state,
    room: row.room,
    interest: row.interest,
    aerosol: row.aerosol,
    aerosol_stated: row.aerosolStated === 1,
    invented: row.invented,
    created_at: row.createdAt,
    performed_at: row.performedAt,
    submitter: { id: row.submitter, handle: row.handle },
    cadr: value === null || u === null ? null : quantityOut({ value, u, dof: row.cadrDof ?? Infinity }, "m3/h", unit),
    paired: row.paired,
    serious: row.serious ?? false,
  };
}
