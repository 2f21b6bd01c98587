import { afterAll, beforeAll, expect, test } from "vitest";
import type { AnalysisOut } from "../../api/wire/analysis.ts";
import { newKey, problemOf } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { bearer, sampleLog, sampleTrial } from "../support/sample-trial.ts";

let target: InProcess;
let key: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterAll(() => target.stop());

const iso = (t: number) => new Date(Date.UTC(2026, 9, 13, 18) + t * 1000).toISOString().slice(0, 19);
const clock = (t: number) => iso(t).slice(11);
const DRESSES: [string, (t: number) => string][] = [
  ["zoned stamps", (t) => `${iso(t)}Z`],
  ["stamps without a zone", (t) => iso(t).replace("T", " ")],
  ["a clock", clock],
  ["day first", (t) => `13.10.2026 ${clock(t)}`],
  ["seconds", String],
];

const log = (dress: (t: number) => string) => {
  const { tS, channels } = sampleLog(1).series;
  const rows = Array.from(tS, (t, i) => `${dress(t)};${channels[0]!.values[i]}`);
  return new Blob([`time;n 0.3-1.0 [1/cm3]\n${rows.join("\n")}`]);
};
/** The sample log: clean air to 300 s, fed to 420 s, natural decay to 1920 s. */
const expectPhases = ({ phases }: AnalysisOut) => {
  expect(phases.find(({ phase }) => phase === "natural")).toMatchObject({ to: 1920 });
  expect(phases.find(({ phase }) => phase === "total")!.why).toContain("mark “cleaner on”");
  for (const { why } of phases) expect(why).not.toMatch(/[a-z]_[a-z]/);
};

test.each(DRESSES)("marks are told as the log tells time: %s", async (_, dress) => {
  const form = new FormData();
  form.set("file", log(dress), "log.csv");
  form.set("volume", "30m3");
  form.set("aerosol_end", dress(420));
  form.set("cleaner_on", dress(1920));
  const answer = await target.request("/v1/analyses", { method: "POST", body: form });
  expect(answer.status).toBe(200);
  expectPhases((await answer.json()) as AnalysisOut);
});

test.each(DRESSES.filter(([name]) => name !== "seconds"))(
  "so are crops and windows of a trial: %s",
  async (_, dress) => {
    const post = (run: object) => {
      const form = new FormData();
      form.set("log", log(dress), "log.csv");
      form.set("trial", JSON.stringify(sampleTrial(2, { runs: [{ role: "full_log", file: "log", ...run }] })));
      return target.request("/v1/trials", { method: "POST", headers: bearer(key), body: form });
    };
    const marks = [{ event: "cleaner_on", t: dress(1920) }];
    const answer = await post({ from: dress(100), marks });
    expect(answer.status).toBe(201);
    expectPhases(((await answer.json()) as { analysis: AnalysisOut }).analysis);
    const wrong = await problemOf(await post({ to: "noon", marks }), 422);
    expect(wrong.errors![0]!.pointer).toBe("#/runs/0/to");
  },
);
