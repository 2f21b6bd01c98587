import { isSameScatter, type Scatter, scatterOf } from "../../analysis/doubt/same-scatter.ts";
import type { Series } from "../../analysis/trial.ts";
import type { Connection } from "../../db/database.ts";
import { listByScatter, listBySeries } from "../../db/fingerprints.ts";
import { unpackSeries } from "../series-blob.ts";
import type { PreparedRun } from "../trial-input.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import type { Doubt, DoubtCode } from "./rules.ts";

/** Of so many channels of a run scatter is looked at. */
const CHANNELS = 4;

interface Sent {
  readonly submitter: string;
  readonly analysis: AnalysisOut;
  readonly runs: readonly PreparedRun[];
  /** SHA-256 of each run's series. */
  readonly hashes: readonly string[];
}

/** What the stated rules doubt about a trial before it is stored; nothing where it may count. */
export async function findDoubts(connection: Connection, sent: Sent): Promise<Doubt[]> {
  const others = await findCopied(connection, sent);
  return [...[...doubtedResults(sent.analysis)].map((code): Doubt => ({ code })), ...others];
}

/** The rules that doubt what an analysis says. */
export function doubtedResults({ results }: AnalysisOut): Set<DoubtCode> {
  const codes = results.flatMap(({ findings }) => findings.map(({ code }) => code));
  return new Set(codes.filter((code) => code === "volume-unlikely" || code === "cadr-above-flow"));
}

/** The fingerprints of a run's readings. */
export function fingerprintsOf(series: Pick<Series, "channels">): number[] {
  return hashesOf(scattersOf(series));
}

function scattersOf({ channels }: Pick<Series, "channels">): Scatter[] {
  return channels.slice(0, CHANNELS).map(({ values }) => scatterOf(values));
}

function hashesOf(scatters: readonly Scatter[]): number[] {
  return [...new Set(scatters.flatMap(({ windows }) => windows.map(({ hash }) => hash)))];
}

/** Who sent readings first may use them again: of all that are alike the oldest decides. */
async function findCopied(connection: Connection, { submitter, runs, hashes }: Sent): Promise<Doubt[]> {
  const own = runs.flatMap((run, i) => ("link" in run.source ? [] : [{ series: run.input.series, hash: hashes[i]! }]));
  for (const { series, hash } of own) {
    const [equal] = await listBySeries(connection, hash);
    const first = equal ?? (await findAlike(connection, series));
    if (first && first.submitter !== submitter) {
      return [{ code: equal ? "equal-readings" : "same-scatter", other: first.trial }];
    }
  }
  return [];
}

/** The oldest stored log of which this one is a copy, scaled or shifted. */
async function findAlike(connection: Connection, series: Pick<Series, "channels">) {
  const sent = scattersOf(series);
  const candidates = await listByScatter(connection, hashesOf(sent));
  return candidates.find((stored) =>
    scattersOf(unpackSeries(stored)).some((other) => sent.some((one) => isSameScatter(other, one))),
  );
}
