import { and, inArray, sql } from "drizzle-orm";
import type { Connection } from "./database.ts";
import { trialRevisions } from "./schema/trials.ts";

/** How a trial was made, as its newest record tells it; null where it does not. */
export interface TrialConditions {
  readonly trial: string;
  readonly ventilation: string | null;
  readonly mixingFan: string | null;
  readonly filterCondition: string | null;
  readonly counterPrinciple: string | null;
}

const IDS_AT_ONCE = 500;

export async function listConditions(connection: Connection, trials: readonly string[]): Promise<TrialConditions[]> {
  const found: TrialConditions[] = [];
  for (let from = 0; from < trials.length; from += IDS_AT_ONCE) {
    const rows = await connection
      .select({
        trial: trialRevisions.trial,
        ventilation: sql<string | null>`${trialRevisions.json} ->> '$.room.ventilation'`,
        mixingFan: sql<string | null>`${trialRevisions.json} ->> '$.room.mixing_fan'`,
        filterCondition: sql<string | null>`${trialRevisions.json} ->> '$.filter_state.condition'`,
        counterPrinciple: sql<string | null>`${trialRevisions.json} ->> '$.counters[0].principle'`,
      })
      .from(trialRevisions)
      .where(
        and(
          inArray(trialRevisions.trial, trials.slice(from, from + IDS_AT_ONCE)),
          sql`${trialRevisions.revision} = (SELECT max(r.revision) FROM ${trialRevisions} r WHERE r.trial = ${trialRevisions.trial})`,
        ),
      );
    found.push(...rows);
  }
  return found;
}
