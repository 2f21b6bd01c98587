import { type SQL, type SQLWrapper, sql } from "drizzle-orm";

/** A level has its u; a bound ('upper') has none, for only its high end is known; or there is nothing at all. */
export function wholeNoise(t: Record<"noiseDb" | "noiseU" | "noiseBound", SQLWrapper>): SQL {
  return sql`CASE WHEN ${t.noiseDb} IS NULL THEN ${t.noiseU} IS NULL AND ${t.noiseBound} IS NULL ELSE (${t.noiseU} IS NULL) = (${t.noiseBound} IS NOT NULL) AND coalesce(${t.noiseBound}, 'upper') = 'upper' END`;
}
