import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { AnalysisOut } from "../../../api/wire/analysis.ts";
import { newKey, problemOf, store } from "../../support/client.ts";
import { json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("$name: a stored trial analysed again", ({ start }) => {
  let target: Target;
  let id: string;
  let stored: AnalysisOut;
  beforeAll(async () => {
    target = await start();
    const trial = await store(target, await newKey(target), sampleTrial(40));
    id = trial.id;
    stored = trial.analysis;
  });
  afterAll(() => target.stop());

  test("gives what was stored, to the last digit", async () => {
    const answer = await target.request("/v1/analyses", json({ trial: id }));
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual(stored);
  });

  test("gives another figure for another window, and says that it was set by hand", async () => {
    const windows = [{ run: 2, phase: "total", from: 100, to: 700 }];
    const answer = await target.request("/v1/analyses", json({ trial: id, windows }));
    const analysis = (await answer.json()) as AnalysisOut;
    expect(answer.status).toBe(200);
    const [result] = analysis.results;
    expect(result!.total.window.to).toBeLessThanOrEqual(700);
    expect(result!.total.window.from).toBeGreaterThanOrEqual(100);
    expect(result!.total.k.value).not.toBe(stored.results[0]!.total.k.value);
    expect(result!.findings.map(({ code }) => code)).toContain("window-fixed-by-hand");
  });

  test("refuses a run it does not have, and an id that is none", async () => {
    const windows = [{ run: 9, phase: "total", from: 100, to: 700 }];
    const problem = await problemOf(await target.request("/v1/analyses", json({ trial: id, windows })), 422);
    expect(problem.errors![0]!.pointer).toBe("#/windows/0/run");
    await problemOf(await target.request("/v1/analyses", json({ trial: "trl-00000000000" })), 404);
  });
});
