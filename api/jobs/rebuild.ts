import type { Database } from "../../db/database.ts";
import { readHistory, replaceDerived, type StoredFigure } from "../../db/derived.ts";
import type { trialStates } from "../../db/schema/standings.ts";
import { poolEntry } from "../pool-entry.ts";

type State = typeof trialStates.$inferInsert;
type PooledRow = Awaited<ReturnType<typeof poolEntry>> & { readonly seq: number };

/**
 * Makes the derived tables anew by replaying the events over the stored results: nothing is analysed again, so states and
 * pooled figures come out as they were.
 */
export async function rebuild(db: Database): Promise<{ events: number; pooled: number }> {
  return db.write(async (connection) => {
    const history = await readHistory(connection);
    const figuresOf = Map.groupBy(history.figures, ({ trial }) => trial);
    const entryOf = new Map(
      history.entries.map(({ id, setting, band, invented }) => [placeOf({ setting, band, invented }), id]),
    );
    const states = new Map<string, State>();
    const members = new Map<string, Map<string, StoredFigure>>();
    const pooled: PooledRow[] = [];
    for (const { kind, subject, seq } of history.events) {
      const counts = COUNTS[kind];
      if (counts === undefined) continue;
      states.set(subject, {
        trial: subject,
        state: counts ? "listed" : kind === "trial-held" ? "pending" : "withdrawn",
        seq,
      });
      for (const figure of figuresOf.get(subject) ?? []) {
        const entry = entryOf.get(placeOf(figure));
        if (entry === undefined) continue;
        const inEntry = members.get(entry) ?? new Map<string, StoredFigure>();
        members.set(entry, inEntry);
        if (counts) inEntry.set(subject, figure);
        else inEntry.delete(subject);
        pooled.push({ ...(await poolEntry(entry, [...inEntry.values()], figure.methodVersion)), seq });
      }
    }
    await replaceDerived(connection, [...states.values()], pooled);
    return { events: history.events.length, pooled: pooled.length };
  });
}

/** Whether a trial counts after an event about it; other events change no pool. */
const COUNTS: Partial<Record<string, boolean>> = {
  "trial-stored": true,
  "trial-listed": true,
  "trial-held": false,
  "trial-withdrawn": false,
};

function placeOf({ setting, band, invented }: { setting: number; band: string; invented: boolean }): string {
  return `${setting} ${band} ${invented}`;
}
