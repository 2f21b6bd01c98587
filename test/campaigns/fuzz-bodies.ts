import { createRandom } from "../../analysis/simulate/random.ts";
import { AnalysisOut } from "../../api/wire/analysis.ts";
import { below, mutatedLog, mutatedTrial } from "./mutations.ts";

export interface FuzzOutcome {
  readonly statuses: Readonly<Record<number, number>>;
  readonly slowestMs: number;
  /** What went wrong, with the number of the body, so that it can be made again. */
  readonly faults: readonly { readonly body: number; readonly fault: string }[];
}

type Send = (path: string, init: RequestInit) => Promise<Response>;

/**
 * Sends mutated logs and trials to `POST /v1/analyses`: no answer may be a 5xx, take over a second, or hold anything but
 * numbers where numbers belong (NaN and Infinity would be written as null).
 */
export async function fuzzBodies(send: Send, from: number, to: number, seed: number): Promise<FuzzOutcome> {
  const statuses: Record<number, number> = {};
  const faults: { body: number; fault: string }[] = [];
  let slowestMs = 0;
  for (let body = from; body < to; body++) {
    const init = bodyOf(body, seed);
    const started = performance.now();
    const answer = await send("/v1/analyses", init);
    const text = await answer.text();
    const ms = performance.now() - started;
    slowestMs = Math.max(slowestMs, ms);
    statuses[answer.status] = (statuses[answer.status] ?? 0) + 1;
    if (ms > 1000) faults.push({ body, fault: `took ${Math.round(ms)} ms` });
    if (answer.status >= 500) faults.push({ body, fault: `${answer.status}: ${text.slice(0, 200)}` });
    if (answer.status === 200) {
      const parsed = AnalysisOut.safeParse(JSON.parse(text));
      if (!parsed.success) faults.push({ body, fault: JSON.stringify(parsed.error.issues[0]) });
    } else if (typeof (JSON.parse(text) as { detail?: unknown }).detail !== "string") {
      faults.push({ body, fault: `no detail: ${text.slice(0, 200)}` });
    }
  }
  return { statuses, slowestMs, faults };
}

/** The nth mutated body of a seed. */
export function bodyOf(n: number, seed: number): RequestInit {
  const random = createRandom(seed + 7919 * n);
  if (below(random, 2) === 0) {
    return {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(mutatedTrial(random)),
    };
  }
  const form = new FormData();
  form.set("file", new Blob([mutatedLog(random)]), "log.csv");
  form.set("volume", ["30m3", "1008ft3", "30 m3", "0.1L"][below(random, 4)]!);
  if (below(random, 4) === 0) form.set("cleaner_on", String(below(random, 4000) - 500));
  if (below(random, 4) === 0) form.set("role", ["natural", "total", "background"][below(random, 3)]!);
  return { method: "POST", body: form };
}
