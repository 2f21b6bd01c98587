import { expect } from "vitest";
import type { AnalysisOut } from "../../api/wire/analysis.ts";
import type { LeaderboardOut } from "../../api/wire/leaderboard.ts";
import { bearer, json } from "./sample-trial.ts";
import type { Target } from "./targets.ts";

export interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly code: string;
  readonly detail: string;
  readonly errors?: readonly { readonly detail: string; readonly pointer: string }[];
  readonly refusals?: AnalysisOut["refusals"];
}

export interface StoredTrial {
  readonly id: string;
  readonly state: string;
  readonly invented: boolean;
  readonly sha256: string;
  readonly setting: string;
  readonly configuration: { readonly id: string };
  readonly analysis: AnalysisOut;
  readonly history: readonly { readonly kind: string; readonly reason: string | null }[];
  readonly [field: string]: unknown;
}

/** A new submitter's key. */
export async function newKey(target: Target, handle?: string): Promise<string> {
  const answer = await target.request("/v1/keys", handle === undefined ? { method: "POST" } : json({ handle }));
  expect(answer.status).toBe(201);
  return ((await answer.json()) as { key: string }).key;
}

/** Stores a trial; fails with the problem's own words where it is not stored. */
export async function store(target: Target, key: string, trial: unknown, status = 201): Promise<StoredTrial> {
  const answer = await target.request("/v1/trials", json(trial, bearer(key)));
  const body = await answer.json();
  expect([answer.status, answer.status === status ? "" : body]).toEqual([status, ""]);
  return body as StoredTrial;
}

export async function leaderboard(target: Target, query = ""): Promise<LeaderboardOut> {
  const answer = await target.request(`/v1/leaderboard${query}`);
  expect(answer.status).toBe(200);
  return (await answer.json()) as LeaderboardOut;
}

/** The problem document of a refusal, checked for its form. */
export async function problemOf(answer: Response, status: number): Promise<Problem> {
  const text = await answer.text();
  expect([answer.status, answer.status === status ? "" : text.slice(0, 500)]).toEqual([status, ""]);
  expect(answer.headers.get("Content-Type")).toContain("application/problem+json");
  const problem = JSON.parse(text) as Problem;
  expect(problem.status).toBe(status);
  expect(problem.detail.length).toBeGreaterThan(0);
  return problem;
}
