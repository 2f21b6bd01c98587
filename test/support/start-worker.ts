import { join } from "node:path";
import { createTestHarness } from "wrangler";

export type RunningWorker = {
  url: string;
  fetch(path: string, init?: RequestInit): Promise<Response>;
  stop(): Promise<void>;
};

export type WorkerOptions = {
  libsqlUrl: string;
  libsqlAuthToken?: string;
  /** Further variables of the Worker's environment: KEY_SECRET, OPERATOR_KEY, PUBLIC_URL. */
  vars?: Record<string, string>;
  /** The entry, from the project's root; the one in wrangler.toml unless said. */
  main?: string;
};

/** Runs the Worker in workerd, an isolate and a process of its own, on a free port of 127.0.0.1. */
export async function startWorker(options: WorkerOptions): Promise<RunningWorker> {
  const { libsqlUrl, libsqlAuthToken = "", vars = {}, main } = options;
  const environment = { LIBSQL_URL: libsqlUrl, LIBSQL_AUTH_TOKEN: libsqlAuthToken, ...vars };
  process.env.CLOUDFLARE_CF_FETCH_ENABLED = "false"; // or it asks the network for a sample of request.cf
  process.env.WRANGLER_SEND_METRICS = "false";
  const root = join(import.meta.dirname, "../..");
  const harness = createTestHarness({
    root,
    workers: [
      main
        ? { config: { name: "fixture", main, compatibility_date: "2026-11-01", vars: environment } }
        : { configPath: "wrangler.toml", vars: environment },
    ],
  });
  const { url } = await harness.listen();
  return {
    url: url.origin,
    fetch: (path, init) => fetch(new URL(path, url), init),
    stop: () => harness.close(),
  };
}
