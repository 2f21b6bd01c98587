import { createClient } from "@libsql/client";
import { pinPath } from "../../api/pins/pin.ts";
import type { AnalysisOut } from "../../api/wire/analysis.ts";

type Request = (path: string) => Promise<Response>;

/** The path of every result that can be pinned in a database: all bands of all results, all pooled rows with a figure. */
export async function listPins(databaseUrl: string): Promise<string[]> {
  const client = createClient({ url: databaseUrl });
  const results = await client.execute("SELECT trial, revision, json FROM results");
  const rows = await client.execute("SELECT entry, basis, seq FROM pooled WHERE cadr_m3_per_h IS NOT NULL");
  client.close();
  const ofTrials = results.rows.flatMap(({ trial, revision, json }) => {
    const { method_version: methodVersion, results: found } = JSON.parse(String(json)) as AnalysisOut;
    const [id, n] = [String(trial), Number(revision)];
    return found.map(({ band }) => {
      return pinPath({ kind: "trial", trial: id, revision: n, methodVersion, band: band.name });
    });
  });
  const ofEntries = rows.rows.map(({ entry, basis, seq }) => `/pinned/${entry}/${basis}/${seq}`);
  return [...ofTrials, ...ofEntries];
}

/** What each of these paths answers, byte for byte as text. */
export async function pinnedAnswers(request: Request, paths: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const answers = new Map<string, string>();
  for (const path of paths) {
    const answer = await request(`/v1${path}`);
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${text}`);
    answers.set(path, text);
  }
  return answers;
}
