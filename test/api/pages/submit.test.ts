import { existsSync, readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { chosenValue, DESCRIBED, type FieldName } from "../../../api/pages/submit/form-fields.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { FormOfPage } from "./form-of-page.ts";
import { randomForm } from "./random-form.ts";

const REAL = "../shared/real/fanA_run1_optical-c.csv";
/** A log of both decays, whose channel fills the band 0.1–1.0 µm by half. */
const CSV = toCsv(sampleLog(11).series).replace("n1", "0.3-1.0 um");
const csv = (text = CSV) => new File([text], "log.csv", { type: "text/csv" });

const DESCRIPTION = {
  configuration: DESCRIBED,
  "described.title": "Tern box",
  "described.kind": "user_built",
  "described.parts.0.part": "fan",
  "described.parts.0.count": "1",
  "described.parts.0.description": "axial fan, 200 mm",
  "described.parts.1.part": "filter",
  "described.parts.1.count": "2",
  "described.parts.1.description": "pleated panel",
  "described.parts.1.grade_system": "MERV",
  "described.parts.1.grade": "13",
  "described.setting": "low",
} satisfies Partial<Record<FieldName, string>>;

const CONDITIONS = {
  interest: "independent",
  performed_at: "2026-10-03T18:20",
  performed_offset: "+02:00",
  consent: "yes",
} satisfies Partial<Record<FieldName, string>>;

describe("a test is added without scripts", () => {
  let target: InProcess;
  beforeAll(async () => {
    target = await startInProcess();
  });
  afterAll(() => target.stop());

  const post = (body: FormData) => target.request("/submit", { method: "POST", body });
  async function shown(body: FormData, status = 200): Promise<FormOfPage> {
    const answer = await post(body);
    const form = new FormOfPage(await answer.text());
    expect({ status: answer.status, ...form.summary }).toMatchObject({ status });
    return form;
  }
  const empty = async (path = "/submit") => new FormOfPage(await (await target.request(path)).text());

  test("a look, a mark moved, a key, published, listed; the same once more leads to the first", async () => {
    const blank = await empty();
    expect(blank.complaints.size).toBe(0);
    expect(blank.fields.get("interest")).toBeUndefined();
    const first = await shown(blank.send("preview", { "full_log.file": csv(), "room.volume": "30" }));
    const before = figureOf(first.html);
    expect(before).toMatch(/^\d+ ± \d+ m³\/h$/);
    expect(first.fields.get("full_log.kept")).not.toBe("");

    // No file from here on: the log travels in the page. A mark that cuts the end of the decay off changes the fit.
    const marked = await shown(first.send("preview", { "full_log.mark.cleaner_off": "45" }));
    expect(totalOf(first.html)).toMatch(/ ± .* per hour$/);
    expect(totalOf(marked.html)).not.toBe(totalOf(first.html));
    expect(marked.fields.get("full_log.kept")).toBe(first.fields.get("full_log.kept"));

    const keyed = await shown(marked.send("key", { handle: "Slack water" }));
    expect(keyed.fields.get("key")).toMatch(/^mote_/);
    expect(keyed.html).toContain("shown this once");
    const refused = await shown(keyed.send("publish", DESCRIPTION), 422);
    expect([...refused.complaints.keys()].sort()).toEqual(["consent", "interest", "performed_at"].map(String).sort());

    const answer = await post(refused.send("publish", CONDITIONS));
    expect(answer.status).toBe(303);
    const path = answer.headers.get("Location")!;
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

    const again = await post(refused.send("publish", CONDITIONS));
    expect(again.headers.get("Location")).toBe(path);
  });

  test.skipIf(!existsSync(REAL))("with a log of a real counter", async () => {
    const bytes = readFileSync(REAL);
    const upload = new File([bytes], "fan.csv");
    const first = await shown((await empty()).send("preview", { "total.file": upload, "room.volume": "30" }));
    expect(figureOf(first.html)).toMatch(/ ± /);
    expect(first.html).toContain("assumed, not measured");
    const keyed = await shown(first.send("key"));
    const answer = await post(
      keyed.send("publish", { ...DESCRIPTION, ...CONDITIONS, "described.title": "Real", "described.compared": "yes" }),
    );
    expect(new FormOfPage(await answer.clone().text()).summary).toEqual({ links: [], others: [] });
    expect(answer.status).toBe(303);
    const file = await target.request(`/v1${answer.headers.get("Location")}/runs/0/file`);
    expect(Buffer.from(await file.arrayBuffer()).equals(bytes)).toBe(true);
  });

  test("pasted, in feet, with decimal commas; a stamped log says when it began", async () => {
    const text = toCsv(sampleLog(12).series, DRESSES.stamped).replace("n1", "0.3-1.0 um");
    const sides = { "room.unit": "ft", "room.length": "16,4", "room.width": "13.1", "room.height": "8" };
    const form = await shown((await empty()).send("preview", { "full_log.text": text, ...sides }));
    expect(form.fields.get("performed_at")).toBe("2026-10-03T16:20");
    expect(form.fields.get("performed_offset")).toBe("+00:00");
    expect(form.fields.get("full_log.kept_name")).toBe("pasted.csv");
    const volumeM3 = 16.4 * 13.1 * 8 * 0.3048 ** 3;
    const [, cadr] = /^(\d+)/.exec(figureOf(form.html)!)!;
    expect(Number(cadr) / (8 * volumeM3)).toBeCloseTo(1, 1); // the sample's cleaner adds 8 air changes an hour
  });

  test("a column read wrongly is corrected, in the page of a refusal too", async () => {
    const odd = CSV.replace("0.3-1.0 um", "bananas").replace(/^time/, "ticks");
    const read = await shown((await empty()).send("preview", { "full_log.file": csv(odd), "room.volume": "30" }), 422);
    expect(read.complaints.get("full_log-file")).toContain("none of these is a time");
    const corrected = {
      "full_log.columns.0.use": "time",
      "full_log.columns.0.unit": "s",
      "full_log.columns.1.use": "number",
      "full_log.columns.1.from": "0,3",
      "full_log.columns.1.to": "1.0",
    };
    const form = await shown(read.send("preview", corrected));
    expect(form.html).toContain("0.1–1.0 µm");
    expect(form.fields.get("full_log.columns.1.from")).toBe("0,3");
    // Another log in its place: what was said of the other one's columns is forgotten.
    const other = await shown(form.send("preview", { "full_log.file": csv() }));
    expect(other.fields.get("full_log.columns.1.name")).toBe("0.3-1.0 um");
    const wrong = await shown(
      form.send("preview", { "full_log.columns.1.unit": "m", "full_log.columns.1.from": "x" }),
      422,
    );
    expect(wrong.complaints.has("full_log-columns-1-from")).toBe(true);
  });

  test("what is stored is found and chosen; what is like it is offered before publishing", async () => {
    const blank = await empty();
    const found = await shown(blank.send("find", { find: "tern" }));
    const id = /value="(cfg-[^" ]+) low"/.exec(found.html)![1]!;
    const chosen = await shown(found.send("rows", { configuration: chosenValue(id, "low") }));
    expect(chosen.fields.get("configuration")).toBe(`${id} low`);
    const start = await empty(`/submit?configuration=${id}&setting=low`);
    expect(start.fields.get("configuration")).toBe(`${id} low`);

    const keyed = await shown(
      chosen.send("key", { "full_log.file": csv(toCsv(sampleLog(13).series)), "room.volume": "30" }),
    );
    const like = {
      ...DESCRIPTION,
      ...CONDITIONS,
      "described.title": "Tern box, one panel",
      "described.parts.1.count": "1",
    };
    const asked = await shown(keyed.send("publish", like), 422);
    expect(asked.complaints.get("configuration")).toContain("Is it one of those");
    expect(asked.html).toContain("two filters instead of one: pleated panel");
    const answer = await post(asked.send("publish"));
    expect(answer.status).toBe(303);
  });

  test("what the store refuses stands beside its field", async () => {
    const keyed = await shown(
      (await empty()).send("key", { "full_log.file": csv(toCsv(sampleLog(14).series)), "room.volume": "30" }),
    );
    const whole = { ...DESCRIPTION, ...CONDITIONS, "described.compared": "yes", "room.label": "shed" };
    expect((await post(keyed.send("publish", whole))).status).toBe(303);
    const cases: [Record<string, string>, string][] = [
      [{ "room.volume": "40" }, "room-volume"],
      [{ configuration: "cfg-0000000000Z" }, "configuration"],
      [{ configuration: "nonsense" }, "configuration"],
      [{ key: "mote_wrong" }, "key"],
      [{ key: "operator-key-for-tests" }, "key"],
      [{ from_run: "trl-x/runs/0" }, "from_run"],
      [{ "described.kind": "commercial" }, "described-maker"],
      [{ "described.plan_url": "javascript:alert(1)" }, "described-plan_url"],
      [{ trials_made: "1.5" }, "trials_made"],
      [{ "noise.0.level": "44" }, "noise-0-distance"],
      [{ "full_log.mark.cleaner_on": "9999" }, "full_log-mark-cleaner_on"],
      [{ "full_log.kept": "AAAA" }, "full_log-file"],
      [{ "room.label": "x".repeat(81) }, "room-label"],
      [{ "described.parts.3.description": "y".repeat(201) }, "described-parts-3-description"],
    ];
    for (const [change, field] of cases) {
      const form = await shown(keyed.send("publish", { ...whole, ...change }), 422);
      expect([...form.complaints.keys()], JSON.stringify(change)).toContain(field);
      expect(form.summary.links).toContain(`f-${field}`);
      for (const link of form.summary.links) expect(form.has(link), link).toBe(true);
    }
  });

  test("a log too large for the page is asked for again; one too large for a request is explained", async () => {
    const blank = await empty();
    const rows = Array.from({ length: 30_000 }, (_, i) => `${i},${Math.round(1e9 * Math.abs(Math.sin(i * i)))}`);
    const noise = csv(`time,>0.3\n${rows.join("\n")}\n`);
    const form = new FormOfPage(
      await (await post((await empty()).send("preview", { "full_log.file": noise, "room.volume": "30" }))).text(),
    );
    expect(form.fields.get("full_log.kept")).toBeUndefined();
    expect(form.html).toContain("choose the file again");
    const sent = new Response(blank.send("preview", { "full_log.file": new File(["x".repeat(5e6)], "a.csv") }));
    const headers = { "Content-Type": sent.headers.get("Content-Type")! };
    const body = await sent.arrayBuffer();
    const huge = await target.request("/submit", { method: "POST", body, headers });
    expect(huge.status).toBe(413);
    expect(await huge.text()).toContain("4 MiB");
    const wrong = await target.request("/submit", {
      method: "POST",
      body: "{}",
      headers: { "Content-Type": "application/json" },
    });
    expect(wrong.status).toBe(415);
    expect(await wrong.text()).toContain('id="f-room-volume"');
  });

  test("200 forms filled at random: what is refused is told in the summary and beside its field", async () => {
    const keyed = await shown((await empty()).send("key"));
    const files = [CSV, toCsv(sampleLog(15).series, DRESSES.semicolon), "a,b\n1,2\n"].map((text) => csv(text));
    let stored = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const random = createRandom(seed);
      const fields = {
        key: keyed.fields.get("key")!,
        ...Object.fromEntries(randomForm(random)),
        "described.compared": "yes",
      };
      const log: Record<string, File> = random.uniform() < 0.4 ? { "full_log.file": files[seed % files.length]! } : {};
      const answer = await post(new FormOfPage("").send(seed % 3 === 0 ? "preview" : "publish", { ...fields, ...log }));
      if (answer.status === 303) stored++;
      if (answer.status === 303 || answer.status === 200) continue;
      expect(answer.status, `seed ${seed}`).toBe(422);
      const form = new FormOfPage(await answer.text());
      const { links, others } = form.summary;
      const hasRefusals = form.html.includes("No clean air delivery rate can be told");
      expect(links.length + others.length > 0 || hasRefusals, `seed ${seed}`).toBe(true);
      for (const link of links) expect(form.has(link), `seed ${seed}: ${link}`).toBe(true);
      expect([...form.complaints.keys()].map((id) => `f-${id}`).sort(), `seed ${seed}`).toEqual([...links].sort());
    }
    expect(stored).toBeGreaterThan(5);
  }, 60_000);

  test("hostile words come back as words", async () => {
    const hostile = `"><img src=x onerror=alert(1)></textarea><script>alert(2)</script>\u202E=HYPERLINK("http://x")`;
    const names = [
      "room.label",
      "described.title",
      "described.parts.0.description",
      "note",
      "find",
      "key",
      "handle",
      "room.length",
    ];
    const filled = Object.fromEntries([...names, "full_log.text"].map((name) => [name, hostile]));
    const columns = {
      "full_log.text": `time,${hostile.replaceAll(/[",]/g, "")}\n${"1,2\n2,3\n3,4\n"}`,
      "room.volume": "30",
    };
    for (const fields of [filled, { ...filled, ...columns }]) {
      const form = new FormOfPage(await (await post((await empty()).send("publish", fields))).text());
      expect(form.html).not.toMatch(/<(img|script>)/);
      for (const name of names) expect(form.fields.get(name)).toBe(hostile);
    }
  });
});

function figureOf(html: string): string | undefined {
  return /<p class="figure"><span class="q">([^<]*)/.exec(html)?.[1];
}

/** The decay with the cleaner on. */
function totalOf(html: string): string | undefined {
  return /The readings fall by <span class="q">([^<]*)/.exec(html)?.[1];
}
