import type { Connection } from "../../../db/database.ts";
import { StoreError } from "../../../db/store-error.ts";
import { findRun } from "../../find-linked-run.ts";
import { toCounter } from "../../trial-input.ts";
import { CounterIn } from "../../wire/trial.ts";
import { type DrawnRun, drawnRun } from "./drawn-runs.ts";

/** A run whose readings are drawn, or the reason why they are not. */
export type RunDrawing =
  | { readonly n: number; readonly drawn: DrawnRun }
  | { readonly n: number; readonly drawn: null; readonly why: string };

interface Revision {
  readonly id: string;
  readonly revision: number;
  readonly counters: readonly { readonly position?: unknown }[];
  readonly runs: readonly { readonly n: number }[];
}

/** The runs of a trial's revision as they are drawn in one band; of those whose readings were erased, why there are none. */
export async function drawRuns(connection: Connection, trial: Revision, band: string): Promise<RunDrawing[]> {
  const known = trial.counters.map(({ position: _, ...counter }) => toCounter(CounterIn.parse(counter)));
  const counters = new Map(known.map((counter) => [counter.id, counter]));
  return Promise.all(
    trial.runs.map(async ({ n }): Promise<RunDrawing> => {
      try {
        const run = await findRun(connection, trial.id, trial.revision, n);
        const drawn = drawnRun(run, counters.get(run.counter)!, band);
        return drawn ? { n, drawn } : { n, drawn, why: "Their counter has no such channel." };
      } catch (error) {
        if (!(error instanceof StoreError && error.code === "gone")) throw error;
        return { n, drawn: null, why: `${error.message}. What was found by it stays.` };
      }
    }),
  );
}
