import type { Connection } from "../db/database.ts";
import type { resultBands } from "../db/schema/trials.ts";
import { findRunOrigin } from "../db/trials.ts";
import type { LinkedRun, PreparedRun } from "./trial-input.ts";
import type { AnalysisOut, BandResultOut } from "./wire/analysis.ts";

type Figures = Omit<Required<typeof resultBands.$inferInsert>, "rowSha256">;

/** Which runs of a trial are stored runs of others, by number. */
export type Links = ReadonlyMap<number, Pick<LinkedRun, "trial" | "revision" | "n">>;

/** The figures of an analysis that pools are made of, one row a standard band. */
export async function trialFigures(
  connection: Connection,
  trial: string,
  revision: number,
  analysis: AnalysisOut,
  links: Links,
): Promise<Figures[]> {
  const bands = analysis.results.filter(({ band }) => band.kind === "standard");
  return Promise.all(
    bands.map(async (result) => ({
      trial,
      revision,
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
      naturalSource: await naturalSource(connection, trial, result, links),
    })),
  );
}

/**
 * The run that the natural loss came from, trial/1/n; null where it was assumed. Its readings are those first sent,
 * whichever revision says how they are cut, so two that take them share their error. Of several, one taken from another
 * trial names the source, else the first: results that share a part of their natural loss count as sharing all of it,
 * which can only widen an interval.
 */
async function naturalSource(
  connection: Connection,
  trial: string,
  { natural }: BandResultOut,
  links: Links,
): Promise<string | null> {
  const used = natural.counters.map(({ run }) => run).sort((a, b) => a - b);
  const taken = used.flatMap((run) => links.get(run) ?? []);
  const origins = await Promise.all(taken.map((link) => findRunOrigin(connection, link)));
  const [origin] = origins.sort((a, b) => a.n - b.n);
  if (origin) return `${origin.trial}/1/${origin.n}`;
  return used.length > 0 ? `${trial}/1/${used[0]}` : null;
}

/** The runs of a trial on its way in that are another trial's. */
export function linksOf(runs: readonly PreparedRun[]): Links {
  return new Map(runs.flatMap(({ input, source }) => ("link" in source ? [[input.index, source.link] as const] : [])));
}
