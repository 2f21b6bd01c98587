import type { Connection } from "../db/database.ts";
import type { resultBands } from "../db/schema/trials.ts";
import { findRunOrigin } from "../db/trials.ts";
import type { PreparedRun } from "./trial-input.ts";
import type { AnalysisOut, BandResultOut } from "./wire/analysis.ts";

type Figures = Omit<Required<typeof resultBands.$inferInsert>, "rowSha256">;

/** The figures of an analysis that pools are made of, one row a standard band. */
export async function trialFigures(
  connection: Connection,
  trial: string,
  analysis: AnalysisOut,
  runs: readonly PreparedRun[],
): Promise<Figures[]> {
  const bands = analysis.results.filter(({ band }) => band.kind === "standard");
  return Promise.all(
    bands.map(async (result) => ({
      trial,
      revision: 1,
      methodVersion: analysis.method_version,
      band: result.band.name as Figures["band"],
      cadrM3PerH: result.cadr.value,
      cadrU: result.cadr.u,
      cadrDof: result.cadr.dof,
      kDifferencePerH: result.air_changes.value,
      kDifferenceU: result.air_changes.u,
      kDifferenceDof: result.air_changes.dof,
      paired: result.paired,
      kNaturalPerH: result.natural.k.value,
      kNaturalU: result.natural.k.u,
      serious: result.findings.some(({ severity }) => severity === "serious"),
      naturalSource: await naturalSource(connection, trial, result, runs),
    })),
  );
}

/**
 * The run that the natural loss came from, trial/revision/n; null where it was assumed. Of several, one taken from another
 * trial names the source, else the first: results that share a part of their natural loss count as sharing all of it,
 * which can only widen an interval.
 */
async function naturalSource(
  connection: Connection,
  trial: string,
  { natural }: BandResultOut,
  runs: readonly PreparedRun[],
): Promise<string | null> {
  const used = natural.counters.map(({ run }) => run).sort((a, b) => a - b);
  const links = used.flatMap((run) => {
    const source = runs[run]?.source;
    return source && "link" in source ? [source.link] : [];
  });
  const origins = await Promise.all(links.map((link) => findRunOrigin(connection, link)));
  const [taken] = origins.sort((a, b) => a.n - b.n);
  if (taken) return `${taken.trial}/${taken.revision}/${taken.n}`;
  return used.length > 0 ? `${trial}/1/${used[0]}` : null;
}
