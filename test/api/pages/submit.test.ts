import { existsSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { chosenValue } from "../../../api/pages/submit/form-fields.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { CONDITIONS, CSV, csv, DESCRIPTION, FormClient } from "./form-client.ts";
import { FormOfPage } from "./form-of-page.ts";

const REAL = "../shared/real/fanA_run1_optical-c.csv";

describe("a test is added without scripts", () => {
  let target: InProcess;
  let client: FormClient;
  beforeAll(async () => {
    target = await startInProcess();
    client = new FormClient(target);
  });
  afterAll(() => target.stop());

  test("a look, a mark moved, a key, published, listed; the same once more leads to the first", async () => {
    const blank = await client.empty();
    expect(blank.complaints.size).toBe(0);
    expect(blank.fields.get("interest")).toBeUndefined();
    const first = await client.shown(blank.send("preview", { "full_log.file": csv(), "room.volume": "30" }));
    const before = figureOf(first.html);
    expect(before).toMatch(/^\d+ ± \d+ m³\/h$/);
    expect(first.fields.get("full_log.kept")).not.toBe("");

    // No file from here on: the log travels in the page. A mark that cuts the end of the decay off changes the fit.
    const marked = await client.shown(first.send("preview", { "full_log.mark.cleaner_off": "45" }));
    expect(totalOf(first.html)).toMatch(/ ± .* per hour$/);
    expect(totalOf(marked.html)).not.toBe(totalOf(first.html));
    expect(marked.fields.get("full_log.kept")).toBe(first.fields.get("full_log.kept"));

    const keyed = await client.shown(marked.send("key", { handle: "Slack water" }));
    expect(keyed.fields.get("key")).toMatch(/^mote_/);
    expect(keyed.html).toContain("shown this once");
    const refused = await client.shown(keyed.send("publish", DESCRIPTION), 422);
    expect([...refused.complaints.keys()].sort()).toEqual(["consent", "interest", "performed_at"].map(String).sort());

    const answer = await client.post(refused.send("publish", CONDITIONS));
    expect(answer.status).toBe(303);
    const path = answer.headers.get("Location")!.split("?")[0]!;
    expect(path).toMatch(/^\/trials\/trl-/);
    const trial = (await (await target.request(`/v1${path}`)).json()) as Record<string, unknown>;
    expect(trial).toMatchObject({
      setting: "low",
      performed_at: "2026-10-03T18:20:00+02:00",
      submitter: { handle: "Slack water" },
    });
    expect(await (await target.request("/?unpaired=include")).text()).toContain("Tern box");
    const file = await target.request(`/v1${path}/runs/0/file`);
    expect(await file.text()).toBe(CSV); // the carried log, to the byte

    const again = await client.post(refused.send("publish", CONDITIONS));
    expect(again.headers.get("Location")).toContain(path);
  });

  test.skipIf(!existsSync(REAL))("with a log of a real counter", async () => {
    const bytes = readFileSync(REAL);
    const upload = new File([bytes], "fan.csv");
    const first = await client.shown(
      (await client.empty()).send("preview", { "total.file": upload, "room.volume": "30" }),
    );
    expect(figureOf(first.html)).toMatch(/ ± /);
    expect(first.html).toContain("assumed, not measured");
    const wire = gzipSync(first.html).length;
    expect(wire).toBeGreaterThan(40_000); // the log in it
    expect(wire).toBeLessThan(100_000);
    const keyed = await client.shown(first.send("key"));
    const answer = await client.post(
      keyed.send("publish", { ...DESCRIPTION, ...CONDITIONS, "described.title": "Real", "described.compared": "yes" }),
    );
    expect(new FormOfPage(await answer.clone().text()).summary).toEqual({ links: [], others: [] });
    expect(answer.status).toBe(303);
    const file = await target.request(`/v1${answer.headers.get("Location")!.split("?")[0]}/runs/0/file`);
    expect(Buffer.from(await file.arrayBuffer()).equals(bytes)).toBe(true);
  });

  test("pasted, in feet, with decimal commas; a stamped log says when it began", async () => {
    const text = toCsv(sampleLog(12).series, DRESSES.stamped).replace("n1", "0.3-1.0 um");
    const sides = { "room.unit": "ft", "room.length": "16,4", "room.width": "13.1", "room.height": "8" };
    const form = await client.shown((await client.empty()).send("preview", { "full_log.text": text, ...sides }));
    expect(form.fields.get("performed_at")).toBe("2026-10-03T16:20");
    expect(form.fields.get("performed_offset")).toBe("+00:00");
    expect(form.fields.get("full_log.kept_name")).toBe("pasted.csv");
    expect((await client.empty("/submit?unit=cfm")).fields.get("room.unit")).toBe("ft");
    const volumeM3 = 16.4 * 13.1 * 8 * 0.3048 ** 3;
    const [, cadr] = /^(\d+)/.exec(figureOf(form.html)!)!;
    expect(Number(cadr) / (8 * volumeM3)).toBeCloseTo(1, 1); // the sample's cleaner adds 8 air changes an hour
  });

  test("a column read wrongly is corrected, in the page of a refusal too", async () => {
    const odd = CSV.replace("0.3-1.0 um", "bananas").replace(/^time/, "ticks");
    const read = await client.shown(
      (await client.empty()).send("preview", { "full_log.file": csv(odd), "room.volume": "30" }),
      422,
    );
    expect(read.complaints.get("full_log-file")).toContain("none of these is a time");
    const corrected = {
      "full_log.columns.0.use": "time",
      "full_log.columns.0.unit": "s",
      "full_log.columns.1.use": "number",
      "full_log.columns.1.from": "0,3",
      "full_log.columns.1.to": "1.0",
    };
    const form = await client.shown(read.send("preview", corrected));
    expect(form.html).toContain("0.1–1.0 µm");
    expect(form.fields.get("full_log.columns.1.from")).toBe("0,3");
    // Another log in its place: what was said of the other one's columns is forgotten.
    const other = await client.shown(form.send("preview", { "full_log.file": csv() }));
    expect(other.fields.get("full_log.columns.1.name")).toBe("0.3-1.0 um");
    const wrong = await client.shown(
      form.send("preview", { "full_log.columns.1.unit": "m", "full_log.columns.1.from": "x" }),
      422,
    );
    expect(wrong.complaints.has("full_log-columns-1-from")).toBe(true);
  });

  test("what is stored is found and chosen; what is like it is offered before publishing", async () => {
    const blank = await client.empty();
    const found = await client.shown(blank.send("find", { find: "tern" }));
    const id = /value="(cfg-[^" ]+) low"/.exec(found.html)![1]!;
    const chosen = await client.shown(found.send("rows", { configuration: chosenValue(id, "low") }));
    expect(chosen.fields.get("configuration")).toBe(`${id} low`);
    expect([found, chosen].map((page) => page.fields.has("described.parts.5.description"))).toEqual([false, true]);
    const start = await client.empty(`/submit?configuration=${id}&setting=low`);
    expect(start.fields.get("configuration")).toBe(`${id} low`);

    const keyed = await client.shown(
      chosen.send("key", { "full_log.file": csv(toCsv(sampleLog(13).series)), "room.volume": "30" }),
    );
    const like = {
      ...DESCRIPTION,
      ...CONDITIONS,
      "described.title": "Tern box, one panel",
      "described.parts.1.count": "1",
    };
    const asked = await client.shown(keyed.send("publish", like), 422);
    expect(asked.complaints.get("configuration")).toContain("Is it one of those");
    expect(asked.html).toContain("two filters instead of one: pleated panel");
    const answer = await client.post(asked.send("publish"));
    expect(answer.status).toBe(303);
  });
});

function figureOf(html: string): string | undefined {
  return /<p class="figure"><span class="q">([^<]*)/.exec(html)?.[1];
}

/** The decay with the cleaner on. */
function totalOf(html: string): string | undefined {
  return /The readings fall by <span class="q">([^<]*)/.exec(html)?.[1];
}
