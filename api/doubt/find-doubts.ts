import { isSameScatter, scatterWindows } from "../../analysis/doubt/same-scatter.ts";
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
  const codes = new Set<DoubtCode>();
  for (const { code } of sent.analysis.results.flatMap(({ findings }) => findings)) {
    if (code === "volume-unlikely" || code === "cadr-above-flow") codes.add(code);
  }
  const others = await findCopied(connection, sent);
  return [...[...codes].map((code): Doubt => ({ code })), ...others];
}

/** The fingerprints of a run's readings. */
export function fingerprintsOf({ channels }: Pick<Series, "channels">): number[] {
  return [
    ...new Set(channels.slice(0, CHANNELS).flatMap(({ values }) => scatterWindows(values).map(({ hash }) => hash))),
  ];
}

async function findCopied(connection: Connection, { submitter, runs, hashes }: Sent): Promise<Doubt[]> {
  const own = runs.flatMap((run, i) => ("link" in run.source ? [] : [{ run, hash: hashes[i]! }]));
  const equal = await listBySeries(
    connection,
    own.map(({ hash }) => hash),
    submitter,
  );
  if (equal[0]) return [{ code: "equal-readings", other: equal[0].trial }];
  for (const { run } of own) {
    const alike = await listByScatter(connection, fingerprintsOf(run.input.series), submitter);
    const copied = alike.find((stored) => {
      return unpackSeries(stored).channels.some(({ values }) =>
        run.input.series.channels.slice(0, CHANNELS).some((sent) => isSameScatter(values, sent.values)),
      );
    });
    if (copied) return [{ code: "same-scatter", other: copied.trial }];
  }
  return [];
}
