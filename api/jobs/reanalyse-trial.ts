import type { Method } from "../../analysis/method.ts";
import { findAdoption } from "../../db/adoptions.ts";
import { canonicalJson, sha256Hex } from "../../db/content-hash.ts";
import type { Connection } from "../../db/database.ts";
import { findNamedSetting, insertReanalysis } from "../../db/insert-reanalysis.ts";
import { readEntries } from "../../db/members.ts";
import { findMovedSetting } from "../../db/moves.ts";
import { StoreError } from "../../db/store-error.ts";
import { findResult, findTrial, listResults, listRuns } from "../../db/trials.ts";
import type { Dependencies } from "../environment.ts";
import { findTrialInput } from "../find-trial-input.ts";
import { makeId } from "../public-id.ts";
import { repool } from "../repool.ts";
import { retrying } from "../store-trial.ts";
import { trialFigures } from "../trial-figures.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import { withFigures } from "../with-figures.ts";
import { writeAnalysis } from "../write-analysis.ts";

/**
 * Analyses one stored trial by a method version and adds the result beside the older ones. Another that was there first, a
 * withdrawal or an amendment in between leave it as it is.
 * @returns whether a result was added
 */
export async function reanalyseTrial(
  { db, now, random }: Pick<Dependencies, "db" | "now" | "random">,
  method: Method,
  id: string,
): Promise<boolean> {
  const { trial, analysis, links } = await analyseStored(db.read, method, id);
  const json = canonicalJson(analysis);
  return retrying(() =>
    db.write(async (connection) => {
      const { revision, state, invented } = await findTrial(connection, id);
      const known = await listResults(connection, id, trial.revision);
      const superseded = known.some(({ methodOrdinal }) => methodOrdinal >= method.ordinal);
      if (superseded || revision !== trial.revision || state === "withdrawn") return false;
      const at = now().toISOString();
      const adoption = await findAdoption(connection);
      const setting = await findMovedSetting(connection, trial.setting);
      const entries = await readEntries(connection, setting, invented);
      const bands = await trialFigures(connection, id, revision, analysis, links);
      const newEntries = bands
        .filter(({ band }) => !entries.some(({ entry }) => entry.band === band))
        .map(({ band }) => ({ id: makeId("entry", random), band, setting, invented, createdAt: at }));
      const created = newEntries.map((entry) => ({ entry, previous: new Map(), seq: 0, members: [] }));
      const counts = state === "listed" || state === "questioned";
      const changes = counts ? await withFigures(connection, [...entries, ...created], id, revision, bands) : [];
      const isLate = adoption.ordinal >= method.ordinal;
      await insertReanalysis(connection, {
        result: {
          trial: id,
          revision,
          methodVersion: method.version,
          methodOrdinal: method.ordinal,
          roomRevision: known[0]!.roomRevision,
          json,
          sha256: await sha256Hex(json),
          at,
        },
        bands,
        newEntries,
        named: await findNamedSetting(connection, setting),
        readSetting: setting,
        readAdoption: adoption.ordinal,
        late: isLate ? { readState: state, pools: await repool(connection, changes, { adoption }) } : null,
      });
      return true;
    }),
  );
}

/** The analysis of what is stored. What the files' columns were taken for, and which rows could not be read, stays as it was. */
async function analyseStored(connection: Connection, method: Method, id: string) {
  const { trial, input, volume } = await findTrialInput(connection, id);
  const before = JSON.parse((await findResult(connection, id, trial.revision)).json) as AnalysisOut;
  const runs = input.runs.map((run) => ({ input: run }));
  const analysis = writeAnalysis(method.analyse(input), runs, volume);
  const unread = before.dropped.filter(({ channel }) => channel === null);
  const links = new Map(
    (await listRuns(connection, id, trial.revision)).flatMap(({ n, fromTrial, fromRevision, fromN }) =>
      fromTrial === null || fromRevision === null || fromN === null
        ? []
        : [[n, { trial: fromTrial, revision: fromRevision, n: fromN }] as const],
    ),
  );
  return {
    trial,
    links,
    analysis: { ...analysis, read: before.read, dropped: [...unread, ...analysis.dropped] },
  };
}

/** Whether the readings a trial was made from are gone. */
export function isErased(error: unknown): boolean {
  return error instanceof StoreError && error.code === "gone";
}
