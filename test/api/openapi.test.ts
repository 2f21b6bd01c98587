import { Validator } from "@seriousme/openapi-schema-validator";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { AnalysisOut } from "../../api/wire/analysis.ts";
import { EntryOut } from "../../api/wire/entry.ts";
import { LeaderboardOut } from "../../api/wire/leaderboard.ts";
import { leaderboard, newKey, type StoredTrial, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { sampleTrial } from "../support/sample-trial.ts";

interface Document {
  readonly openapi: string;
  readonly paths: Record<string, Record<string, unknown>>;
  readonly components: { readonly schemas: Record<string, unknown> };
}

let target: InProcess;
let document: Document;
let stored: StoredTrial;
beforeAll(async () => {
  target = await startInProcess();
  document = (await (await target.request("/openapi.json")).json()) as Document;
  stored = await store(target, await newKey(target), sampleTrial(1));
});
afterAll(() => target.stop());

describe("the description of the API", () => {
  test("is OpenAPI 3.1 by an outside validator", async () => {
    const outcome = await new Validator().validate(
      structuredClone(document) as unknown as Parameters<Validator["validate"]>[0],
    );
    expect(outcome.errors ?? []).toEqual([]);
    expect(outcome.valid).toBe(true);
    expect(document.openapi).toBe("3.1.0");
  });

  test("names every call that this version answers", () => {
    const calls = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method} ${path}`),
    );
    expect(calls.sort()).toEqual([
      "delete /v1/keys/{prefix}",
      "get /healthz",
      "get /oembed",
      "get /openapi.json",
      "get /readyz",
      "get /v1/citation",
      "get /v1/comparison",
      "get /v1/configurations",
      "get /v1/configurations/{id}",
      "get /v1/configurations/{id}/filters",
      "get /v1/dumps",
      "get /v1/dumps/{dump}/{file}",
      "get /v1/entries/{id}",
      "get /v1/entries/{id}/aerosols",
      "get /v1/entries/{id}/citation",
      "get /v1/events",
      "get /v1/leaderboard",
      "get /v1/pinned/{entry}/{basis}/{seq}",
      "get /v1/pinned/{trial}/{revision}/{method_version}/{band}",
      "get /v1/rooms/{id}",
      "get /v1/sizing",
      "get /v1/trials/{id}",
      "get /v1/trials/{id}/citation",
      "get /v1/trials/{id}/questions",
      "get /v1/trials/{id}/revisions",
      "get /v1/trials/{id}/runs/{n}/file",
      "get /v1/trials/{id}/runs/{n}/series.csv",
      "post /v1/analyses",
      "post /v1/configurations",
      "post /v1/configurations/similar",
      "post /v1/configurations/{id}/merge",
      "post /v1/configurations/{id}/revisions",
      "post /v1/keys",
      "post /v1/moderation",
      "post /v1/questions/{id}/answers",
      "post /v1/rooms/{id}/revisions",
      "post /v1/test-plans",
      "post /v1/trials",
      "post /v1/trials/{id}/questions",
      "post /v1/trials/{id}/revisions",
      "post /v1/trials/{id}/withdrawal",
    ]);
  });

  test("lists the closed sets", () => {
    const text = JSON.stringify(document.components.schemas);
    for (const word of [
      "no-switch-on",
      "no-effect",
      "lent_or_given",
      "condensation_counter",
      "mechanical",
      "idempotency-conflict",
    ]) {
      expect(text).toContain(`"${word}"`);
    }
  });
});

describe("answers are what the description says", () => {
  test("an analysis", () => {
    expect(AnalysisOut.strict().safeParse(stored.analysis).error?.issues ?? []).toEqual([]);
    expect(stored.analysis.results.length).toBeGreaterThan(1);
  });

  test("a leaderboard and an entry", async () => {
    const board = await leaderboard(target);
    expect(LeaderboardOut.strict().safeParse(board).error?.issues ?? []).toEqual([]);
    const entry = await (await target.request(`/v1/entries/${board.entries[0]!.id}`)).json();
    expect(EntryOut.strict().safeParse(entry).error?.issues ?? []).toEqual([]);
  });
});
