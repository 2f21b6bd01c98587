import type { Connection } from "../../db/database.ts";
import { findPinnedResult, findRevisionEvent, findWordsAt } from "../../db/pinned-rows.ts";
import { StoreError } from "../../db/store-error.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import type { PinnedTrial } from "../wire/pinned.ts";
import { quantityOut } from "../wire/quantity-out.ts";
import { pinPath, type TrialPin } from "./pin.ts";

/**
 * One band of a result with all that is said with it, from rows that nobody changes. Where another laboratory is expected
 * is left out: it hangs on the spread, which is learnt again.
 * @throws StoreError "not-found"
 */
export async function pinTrial(connection: Connection, pin: TrialPin): Promise<PinnedTrial> {
  const stored = await findPinnedResult(connection, pin.trial, pin.revision, pin.methodVersion);
  const analysis = stored && (JSON.parse(stored.result.json) as AnalysisOut);
  const found = analysis?.results.find(({ band }) => band.name === pin.band);
  if (!stored || !analysis || !found) throw new StoreError("not-found", `No result is stored at ${pinPath(pin)}.`);
  const { trial, revision, result } = stored;
  const seq = await findRevisionEvent(connection, trial.id, revision.revision);
  const record = JSON.parse(revision.json) as Sent;
  const { value, u, dof } = found.cadr;
  const cadr = { value, u, dof: dof ?? Infinity };
  return {
    kind: "trial",
    trial: trial.id,
    revision: revision.revision,
    path: pinPath(pin),
    band: found.band.name,
    invented: trial.invented,
    configuration: await findWordsAt(connection, trial.configuration, seq),
    setting: record.setting,
    cadr: found.cadr,
    cadr_cfm: quantityOut(cadr, "m3/h", "[cft_i]/min"),
    interval_of: "one_trial",
    aerosol: revision.aerosol,
    interest: revision.interest,
    submitter: trial.submitter,
    monte_carlo: found.monte_carlo,
    air_changes: found.air_changes,
    budget: found.budget,
    total: { k: found.total.k },
    natural: { source: found.natural.source, k: found.natural.k },
    paired: found.paired,
    findings: found.findings,
    room: { id: trial.room, revision: result.roomRevision, volume: analysis.volume },
    counters: record.counters.length,
    performed_at: record.performed_at,
    method_version: result.methodVersion,
    stored_at: revision.at,
    analysed_at: result.at,
    record_sha256: revision.sha256,
    result_sha256: result.sha256,
    licence: "CC0-1.0",
  };
}

interface Sent {
  readonly setting: string;
  readonly performed_at: string;
  readonly counters: readonly unknown[];
}
