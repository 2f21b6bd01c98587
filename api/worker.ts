import submitScript from "../.build/submit.txt";
import { openRemote } from "../db/remote.ts";
import { createApp } from "./app.ts";
import { dumpsElsewhere, NO_DUMPS } from "./dumps.ts";
import type { Dependencies } from "./environment.ts";
import { learnSpreadAnew } from "./jobs/learn-spread.ts";
import { reanalyse } from "./jobs/reanalyse.ts";
import { importSecret } from "./secret.ts";
import { workerRenderer } from "./worker-renderer.ts";

/** What the Worker must be given; wrangler.toml says how. */
interface Bindings {
  readonly LIBSQL_URL?: string;
  readonly LIBSQL_AUTH_TOKEN?: string;
  readonly KEY_SECRET?: string;
  readonly OPERATOR_KEY?: string;
  readonly PUBLIC_URL?: string;
  readonly DUMPS_URL?: string;
}

async function dependencies(bindings: unknown): Promise<Dependencies> {
  const { LIBSQL_URL, LIBSQL_AUTH_TOKEN, KEY_SECRET, OPERATOR_KEY, PUBLIC_URL, DUMPS_URL } = bindings as Bindings;
  if (!LIBSQL_URL) throw new Error("LIBSQL_URL is not set");
  if (!PUBLIC_URL) throw new Error("PUBLIC_URL is not set");
  if (!KEY_SECRET) throw new Error("KEY_SECRET is not set");
  return {
    db: openRemote(LIBSQL_URL, LIBSQL_AUTH_TOKEN || undefined),
    now: () => new Date(),
    random: (length) => crypto.getRandomValues(new Uint8Array(length)),
    secret: await importSecret(KEY_SECRET),
    operatorKey: OPERATOR_KEY || null,
    publicUrl: PUBLIC_URL.replace(/\/$/, ""),
    submitScript,
    render: workerRenderer,
    dumps: DUMPS_URL ? dumpsElsewhere(DUMPS_URL) : NO_DUMPS,
  };
}

const app = createApp(dependencies);

/** How much of the re-pooling one scheduled call does; the next goes on where it stopped. */
const A_CALL = { batches: 20, size: 25 };
/** An analysis takes some tens of milliseconds. */
const TRIALS_A_CALL = 50;

export default {
  fetch: app.fetch,
  /** How much laboratories differ, learnt anew from what is stored; and what a new method version says of it. */
  async scheduled(_: unknown, bindings: unknown): Promise<void> {
    const { db, now, random } = await dependencies(bindings);
    await learnSpreadAnew(db, now, A_CALL);
    await reanalyse({ db, now, random }, { ...A_CALL, trials: TRIALS_A_CALL });
  },
};
