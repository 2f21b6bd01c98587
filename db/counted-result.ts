import { and, type Column, eq, type SQL, sql } from "drizzle-orm";
import { resultBands, trials } from "./schema/trials.ts";

/** The place of the method version that was adopted last. */
const ADOPTED = sql`(SELECT max(a.ordinal) FROM method_adoptions a)`;

/**
 * Orders the results of one revision, the one that counts first: the newest up to the adopted version; where there is none,
 * for newer code stored the trial, the oldest above it. So nothing that is added beside changes what counts until it is adopted.
 */
export function countedFirst(methodOrdinal: Column | SQL): SQL {
  return sql`${methodOrdinal} <= ${ADOPTED} DESC, abs(${methodOrdinal} - ${ADOPTED})`;
}

/** The same rule over rows at hand. */
export function countedOf<T extends { readonly methodOrdinal: number }>(rows: readonly T[], adopted: number): T | null {
  const upTo = rows.filter(({ methodOrdinal }) => methodOrdinal <= adopted);
  const candidates = upTo.length > 0 ? upTo : rows;
  const distance = ({ methodOrdinal }: T) => Math.abs(methodOrdinal - adopted);
  return candidates.reduce<T | null>((best, row) => (best && distance(best) <= distance(row) ? best : row), null);
}

/** Joins a trial with the figures of its newest revision's result that counts. A result without figures joins with nothing. */
export const countedFigures = and(
  eq(resultBands.trial, trials.id),
  sql`(${resultBands.revision}, ${resultBands.methodVersion}) = (SELECT r.revision, r.method_version FROM results r WHERE r.trial = ${trials.id} ORDER BY r.revision DESC, ${countedFirst(sql`r.method_ordinal`)} LIMIT 1)`,
)!;
