import { type Client, createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import { createApp } from "../../api/app.ts";
import type { Database } from "../../db/database.ts";
import type { InProcess } from "./in-process.ts";
import type { Target } from "./targets.ts";

/** The same database through a client that lets somebody else write just before its nth statement. */
export function interruptedAt(
  target: InProcess,
  n: number,
  somebodyElse: () => Promise<void>,
): Target & { db: Database } {
  const client = createClient({ url: target.databaseUrl });
  let statements = 0;
  const interrupted = new Proxy(client, {
    get(it, name) {
      const value = Reflect.get(it, name) as unknown;
      if (name !== "execute" && name !== "batch") return typeof value === "function" ? value.bind(it) : value;
      return async (...args: unknown[]) => {
        if (++statements === n) await somebodyElse();
        return (value as (...args: unknown[]) => Promise<unknown>).apply(it, args);
      };
    },
  }) as Client;
  const connection = drizzle(interrupted);
  const db: Database = {
    read: connection,
    identity: client,
    write: (job) => job(connection),
    close: () => client.close(),
  };
  const app = createApp(() => ({ ...target.deps, db }));
  return { db, request: async (path, init) => app.request(path, init), stop: async () => client.close() };
}

/** Tries each place where a neighbour can come in between; `run` tells whether one came. Returns how many places there are. */
export async function atEveryStatement(run: (n: number) => Promise<boolean>): Promise<number> {
  for (let n = 1; ; n++) if (!(await run(n))) return n - 1;
}

/** A neighbour's work, and whether it was done. */
export function neighbour(work: () => Promise<unknown>) {
  const it = {
    came: false,
    async comes() {
      it.came = true;
      await work();
    },
  };
  return it;
}
