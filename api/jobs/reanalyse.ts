import { METHOD, type Method } from "../../analysis/method.ts";
import {
  type Adoption,
  countKept,
  findAdoption,
  insertAdoption,
  listUnanalysed,
  listUnapplied,
} from "../../db/adoptions.ts";
import type { Database } from "../../db/database.ts";
import type { Dependencies } from "../environment.ts";
import { retrying } from "../store-trial.ts";
import { type Application, applyToEntries, type Limits, NO_LIMITS } from "./apply-to-entries.ts";
import { isErased, reanalyseTrial } from "./reanalyse-trial.ts";

export interface ReanalyseOutcome {
  readonly analysed: number;
  /** Trials that keep an older version's result, for their readings were erased. */
  readonly kept: number;
  readonly adoption: Adoption;
  readonly adopted: boolean;
  readonly repooled: number;
  /** False where a limit stopped it: the next call goes on. */
  readonly done: boolean;
}

/** Trials listed at once. */
const TRIALS_A_READ = 50;

/**
 * Brings every stored trial to the running method version: each gets a result beside its older ones; when none is left
 * without, readers see the new version, and every entry is pooled again with it. It may be stopped at any time and called
 * again, by several at once. `trials` and `batches` bound one call in the Worker.
 */
export async function reanalyse(
  deps: Pick<Dependencies, "db" | "now" | "random" | "method">,
  limits: Limits & { readonly trials: number } = { ...NO_LIMITS, trials: Infinity },
): Promise<ReanalyseOutcome> {
  const { db, now, method = METHOD } = deps;
  const before = await applyToEntries(db, now, METHOD_APPLICATION, limits); // what an earlier call left
  let [analysed, adopted] = [0, false];
  let complete = false;
  while (before.done && !complete && analysed < limits.trials) {
    const some = await analyseSome(deps, method, limits.trials - analysed);
    analysed += some.analysed;
    if (!some.complete) break;
    const outcome = await adopt(db, now, method);
    complete = outcome !== "some left";
    adopted = outcome === "adopted";
  }
  const batches = limits.batches - before.used;
  const after = adopted ? await applyToEntries(db, now, METHOD_APPLICATION, { ...limits, batches }) : null;
  const adoption = await findAdoption(db.read);
  return {
    analysed,
    kept: await countKept(db.read, adoption.ordinal),
    adoption,
    adopted,
    repooled: before.repooled + (after?.repooled ?? 0),
    done: complete && (after?.done ?? true),
  };
}

/** Analyses trials that lack a result of this version, until none is left or the limit is reached. */
async function analyseSome(
  deps: Pick<Dependencies, "db" | "now" | "random">,
  method: Method,
  limit: number,
): Promise<{ analysed: number; complete: boolean }> {
  let analysed = 0;
  const { ordinal } = await findAdoption(deps.db.read);
  if (ordinal > method.ordinal) return { analysed, complete: true }; // older code has nothing to add
  for (let after = ""; ; ) {
    const ids = await listUnanalysed(deps.db.read, method.ordinal, after, Math.min(TRIALS_A_READ, limit - analysed));
    for (const id of ids) {
      try {
        if (await reanalyseTrial(deps, method, id)) analysed++;
      } catch (error) {
        if (!isErased(error)) throw error; // erased since it was listed: it keeps what it has
      }
      after = id;
    }
    if (ids.length === 0) return { analysed, complete: true };
    if (analysed >= limit) return { analysed, complete: false };
  }
}

async function adopt(
  db: Database,
  now: () => Date,
  { version, ordinal }: Method,
): Promise<"adopted" | "adopted before" | "some left"> {
  return retrying(() =>
    db.write(async (connection) => {
      const before = await findAdoption(connection);
      if (before.ordinal >= ordinal) return "adopted before";
      if ((await listUnanalysed(connection, ordinal, "", 1)).length > 0) return "some left";
      await insertAdoption(connection, { version, ordinal, at: now().toISOString(), before: before.ordinal });
      return "adopted";
    }),
  );
}

/** The adopted version, applied to entries that were pooled under another. */
const METHOD_APPLICATION: Application = {
  kind: "method-applied",
  async find(connection) {
    const adoption = await findAdoption(connection);
    return { id: adoption.ordinal, known: { adoption } };
  },
  list: (connection, { adoption }, after, limit) => listUnapplied(connection, adoption!.version, after, limit),
  isStale({ previous, members }, { adoption }) {
    const stood = previous.get("all");
    return (members.length > 0 || (stood?.trials ?? 0) > 0) && stood?.methodVersion !== adoption!.version;
  },
};
