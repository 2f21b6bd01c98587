import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { AnalysisOut } from "../api/wire/analysis.ts";
import { sampleLogCsv } from "../seed/sample-log.ts";
import { newKey, type StoredTrial } from "./support/client.ts";
import { type InProcess, startInProcess } from "./support/in-process.ts";
import { bearer } from "./support/sample-trial.ts";

const root = join(import.meta.dirname, "..");
const readme = readFileSync(join(root, "README.md"), "utf8");
const log = readFileSync(join(root, "seed/sample-log.csv"), "utf8");

describe("README.md", () => {
  let target: InProcess;
  beforeAll(async () => {
    target = await startInProcess();
  });
  afterAll(() => target.stop());

  test("shows the real answer to its curl", async () => {
    const form = new FormData();
    form.set("file", new Blob([log]), "sample-log.csv");
    form.set("volume", "30m3");
    const answer = (await (await target.request("/v1/analyses", { method: "POST", body: form })).json()) as AnalysisOut;
    const shown = JSON.parse(/```json\n([\s\S]*?)```/.exec(readme)![1]!) as Record<string, number | string>;
    const { cadr } = answer.results[0]!;
    expect(Object.keys(shown)).toEqual(Object.keys(cadr));
    for (const [name, value] of Object.entries(cadr)) {
      if (typeof value === "number") expect(shown[name]).toBeCloseTo(value, 6);
      else expect(shown[name]).toBe(value);
    }
    expect(cadr.low).toBeLessThan(260);
    expect(cadr.high).toBeGreaterThan(260);
  });

  test("shows a trial that can be stored", async () => {
    const trial = /-F trial='([\s\S]*?)' http/.exec(readme)![1]!;
    const form = new FormData();
    form.set("log", new Blob([log]), "sample-log.csv");
    form.set("trial", trial);
    const answer = await target.request("/v1/trials", {
      method: "POST",
      body: form,
      headers: bearer(await newKey(target)),
    });
    expect(((await answer.json()) as StoredTrial).invented).toBe(true);
    expect(answer.status).toBe(201);
  });

  test("sends the log that its generator makes", () => expect(sampleLogCsv()).toBe(log));

  test("opens with the job, the two commands and the curl, in this order", () => {
    const at = ["need to know", "npm ci\n    npm start", "curl -s -F file=@"].map((text) => readme.indexOf(text));
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(Math.min(...at)).toBeGreaterThan(0);
  });
});
