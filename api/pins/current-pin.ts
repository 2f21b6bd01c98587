import type { Connection } from "../../db/database.ts";
import type { Basis } from "../../db/entries.ts";
import { findBases } from "../../db/entry-figures.ts";
import { findResult, findTrial } from "../../db/trials.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import type { EntryPin, TrialPin } from "./pin.ts";

/**
 * What a trial says now: its newest revision by the method version that readers see, in a band or in the first that has a
 * rate, standard ones first. Null where no rate could be told.
 * @throws StoreError "not-found" where there is no such trial
 */
export async function currentPinOfTrial(connection: Connection, id: string, band?: string): Promise<TrialPin | null> {
  const { revision } = await findTrial(connection, id);
  const result = await findResult(connection, id, revision);
  return pinOfResult(id, revision, JSON.parse(result.json) as AnalysisOut, band);
}

/** The same of a trial that was read already. */
export function pinOfResult(trial: string, revision: number, analysis: AnalysisOut, wanted?: string): TrialPin | null {
  const bands = analysis.results.map(({ band }) => band);
  const band =
    wanted === undefined
      ? (bands.find(({ kind }) => kind === "standard") ?? bands[0])
      : bands.find(({ name }) => name === wanted);
  return band ? { kind: "trial", trial, revision, methodVersion: analysis.method_version, band: band.name } : null;
}

/** The newest pooled figure of an entry on a basis; null where no trial counts on it. */
export async function currentPinOfEntry(
  connection: Connection,
  entry: string,
  basis: Basis = "all",
): Promise<EntryPin | null> {
  const row = (await findBases(connection, entry)).get(basis)?.pooled;
  return row && row.cadrM3PerH !== null ? { kind: "entry", entry, basis, seq: row.seq } : null;
}
