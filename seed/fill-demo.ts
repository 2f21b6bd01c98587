import { CLEANERS } from "./cleaners.ts";
import type { DemoCleaner } from "./demo-cleaner.ts";
import { type Handle, ROOMS } from "./rooms.ts";
import { TRIAL_PLANS } from "./trial-plans.ts";
import { writeTrial } from "./write-trial.ts";

export type Request = (path: string, init?: RequestInit) => Promise<Response>;

export interface StoredPlan {
  readonly plan: (typeof TRIAL_PLANS)[number];
  readonly id: string;
}

/**
 * Fills an empty registry with the invented scenario, every record by a request to the API itself, in a fixed order.
 * @throws Error with the problem's words where the API answers anything but 201
 */
export async function fillDemo(request: Request): Promise<StoredPlan[]> {
  const handles = [...new Set(Object.values(ROOMS).map(({ owner }) => owner))];
  const keys = new Map<Handle, string>();
  for (const handle of handles) {
    const answer = await post<{ key: string }>(request, "/v1/keys", JSON.stringify({ handle }));
    keys.set(handle, answer.key);
  }
  const configurations = new Map<string, string>();
  for (const cleaner of CLEANERS) {
    const body = JSON.stringify(configurationOf(cleaner, configurations));
    const { id } = await post<{ id: string }>(request, "/v1/configurations", body, keys.get(cleaner.describedBy));
    configurations.set(cleaner.key, id);
  }
  const trials = new Map<string, string>();
  const stored: StoredPlan[] = [];
  for (const plan of TRIAL_PLANS) {
    const body = writeTrial(plan, { configurations, trials });
    const { id } = await post<{ id: string }>(request, "/v1/trials", body, keys.get(ROOMS[plan.room].owner));
    trials.set(plan.key, id);
    stored.push({ plan, id });
  }
  return stored;
}

function configurationOf({ words, settings, derivedFrom }: DemoCleaner, known: ReadonlyMap<string, string>) {
  return {
    ...words,
    settings: settings.map((setting) => setting.words),
    ...(derivedFrom === undefined ? {} : { derived_from: known.get(derivedFrom) }),
  };
}

async function post<T>(request: Request, path: string, body: string | FormData, key?: string): Promise<T> {
  const headers = {
    ...(typeof body === "string" ? { "Content-Type": "application/json" } : {}), // a form names its own boundary
    ...(key === undefined ? {} : { Authorization: `Bearer ${key}` }),
  };
  const response = await request(path, { method: "POST", headers, body });
  if (response.status === 201) return (await response.json()) as T;
  const start = typeof body === "string" ? body : String(body.get("trial"));
  throw new Error(`POST ${path} answered ${response.status}: ${await response.text()}\nto ${start.slice(0, 400)}`);
}
