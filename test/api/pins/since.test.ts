import { afterEach, beforeEach, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import type { Method } from "../../../analysis/method.ts";
import { METHOD_CHANGES, methodChangesBetween } from "../../../analysis/method-changes.ts";
import { METHOD_VERSION } from "../../../analysis/method-version.ts";
import { createApp } from "../../../api/app.ts";
import { reanalyse } from "../../../api/jobs/reanalyse.ts";
import { plusMinus } from "../../../api/pages/figures.ts";
import type { PinnedResult } from "../../../api/wire/pinned.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { NEXT_METHOD } from "../../support/other-method.ts";
import { listPins } from "../../support/pinned-answers.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
let key: string;
beforeEach(async () => {
  target = await startInProcess();
  key = await newKey(target);
});
afterEach(() => target.stop());

const page = async (path: string) => (await target.request(path)).text();
const pinOf = ({ id }: StoredTrial, revision = 1, version = METHOD_VERSION) =>
  `/pinned/${id}/${revision}/${version}/0.1-1.0`;
/** The words of a page's note of what stands now, without its marks. */
const nowOf = (html: string) =>
  /Now:.*?<\/p>/s
    .exec(html)?.[0]
    .replaceAll(/<[^>]+>/g, "")
    .replaceAll("&quot;", '"');
const figureOf = async (path: string) => {
  const { pinned } = (await (await target.request(`/v1${path}`)).json()) as PinnedResult;
  return plusMinus(pinned.cadr);
};
const entryPins = async () => (await listPins(target.databaseUrl)).filter((pin) => /ent-.*\/all\//.test(pin));

test("a page says now what an amendment gives, and the amended one that it holds", async () => {
  const trial = await store(target, key, sampleTrial(1));
  const [entry] = await entryPins();
  expect(await page(pinOf(trial))).toContain("It is what holds today");
  const windows = [{ phase: "total", n: 0, from: 100, to: 700 }];
  const body = json({ reason: "the door was opened", runs: [{ n: 2, windows }] }, bearer(key));
  expect((await target.request(`/v1/trials/${trial.id}/revisions`, body)).status).toBe(201);
  const figure = await figureOf(pinOf(trial, 2));
  expect(figure).not.toBe(await figureOf(pinOf(trial)));
  expect(nowOf(await page(pinOf(trial)))).toMatch(`Now: ${figure} m³/h (it was amended: revision 2)`);
  expect(await page(pinOf(trial))).toContain(`<a href="${pinOf(trial, 2)}">`);
  expect(await page(pinOf(trial, 2))).toContain("It is what holds today");
  expect(nowOf(await page(entry!))).toContain("(1\u00a0test was amended)");
});

test("a page says now what a newer method reads in the same readings, of tests and of entries", async () => {
  const trial = await store(target, key, sampleTrial(1));
  const [entry] = await entryPins();
  expect((await reanalyse({ ...target.deps, method: NEXT_METHOD })).adopted).toBe(true);
  const figure = await figureOf(pinOf(trial, 1, NEXT_METHOD.version));
  expect(figure).not.toBe(await figureOf(pinOf(trial)));
  expect(nowOf(await page(pinOf(trial)))).toMatch(
    `Now: ${figure} m³/h (method ${NEXT_METHOD.version} reads the same readings)`,
  );
  expect(await page(pinOf(trial, 1, NEXT_METHOD.version))).toContain("It is what holds today");
  expect(nowOf(await page(entry!))).toContain("(1\u00a0test is read by a newer method)");
});

test("a page of an older method's result says what each newer version changed", async () => {
  const early: Method = {
    version: "0.9.0",
    ordinal: 0,
    analyse(trial) {
      const analysis = analyseTrial({ ...trial, room: { ...trial.room, mixingFan: "off" } });
      return { ...analysis, methodVersion: "0.9.0" };
    },
  };
  const app = createApp(() => ({ ...target.deps, method: early }));
  const trial = await store({ ...target, request: async (path, init) => app.request(path, init) }, key, sampleTrial(1));
  expect(trial.analysis.method_version).toBe("0.9.0");
  const changed = `What method ${METHOD_VERSION} changed: ${METHOD_CHANGES.at(-1)!.changed.join(" ")}`;
  expect(await page(pinOf(trial, 1, "0.9.0"))).not.toContain("What method");
  expect((await reanalyse(target.deps)).analysed).toBe(1);
  expect(await page(pinOf(trial, 1, "0.9.0"))).toContain(changed);
  expect(await page(pinOf(trial))).not.toContain("What method");
});

test("changes are told from a version to a newer one, and not backwards", () => {
  const newest = METHOD_CHANGES.at(-1)!;
  expect(methodChangesBetween("0.9.0", newest.version)).toEqual(METHOD_CHANGES);
  expect(methodChangesBetween(newest.version, newest.version)).toEqual([]);
  expect(methodChangesBetween(newest.version, "999.0.0")).toEqual([]);
});
