import { canonicalJson } from "../db/content-hash.ts";
import type { Connection } from "../db/database.ts";
import { findResult, listRevisions } from "../db/trials.ts";
import { pinOfResult } from "./pins/current-pin.ts";
import { pinPath } from "./pins/pin.ts";
import type { AnalysisOut } from "./wire/analysis.ts";
import type { Revision } from "./wire/revisions.ts";

/** Every revision of a trial, first to newest: what it says differently from the one before, why, and where its results stand for good. */
export async function viewRevisions(connection: Connection, publicUrl: string, trial: string): Promise<Revision[]> {
  const rows = await listRevisions(connection, trial);
  return Promise.all(
    rows.map(async ({ revision, at, reason, interest, aerosol, sha256, json }, i) => {
      const analysis = JSON.parse((await findResult(connection, trial, revision)).json) as AnalysisOut;
      return {
        revision,
        at,
        reason,
        interest,
        aerosol,
        changed: i === 0 ? [] : changedFields(rows[i - 1]!.json, json),
        sha256,
        results: analysis.results.map(({ band }) => {
          const path = pinPath(pinOfResult(trial, revision, analysis, band.name)!);
          return { band: band.name, url: `${publicUrl}/v1${path}`, page: `${publicUrl}${path}` };
        }),
      };
    }),
  );
}

/** The fields of a record that two revisions tell differently; a personal word by its digest. */
function changedFields(before: string, after: string): string[] {
  const [then, now] = [before, after].map((json) => JSON.parse(json) as Record<string, unknown>) as [Fields, Fields];
  const names = new Set([...Object.keys(then), ...Object.keys(now)]);
  names.delete("amends"); // which revision it follows
  return [...names].filter((name) => canonicalJson(then[name] ?? null) !== canonicalJson(now[name] ?? null)).sort();
}

type Fields = Readonly<Record<string, unknown>>;
