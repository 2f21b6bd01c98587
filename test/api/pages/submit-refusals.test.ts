import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { CONDITIONS, CSV, csv, DESCRIPTION, FormClient } from "./form-client.ts";
import { FormOfPage } from "./form-of-page.ts";
import { randomForm } from "./random-form.ts";

describe("a form that is refused is shown again, filled, with each complaint at its field", () => {
  let target: InProcess;
  let client: FormClient;
  beforeAll(async () => {
    target = await startInProcess();
    client = new FormClient(target);
  });
  afterAll(() => target.stop());

  test("what the store refuses stands beside its field", async () => {
    const keyed = await client.shown(
      (await client.empty()).send("key", { "full_log.file": csv(toCsv(sampleLog(14).series)), "room.volume": "30" }),
    );
    const whole = { ...DESCRIPTION, ...CONDITIONS, "described.compared": "yes", "room.label": "shed" };
    expect((await client.post(keyed.send("publish", whole))).status).toBe(303);
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
      const form = await client.shown(keyed.send("publish", { ...whole, ...change }), 422);
      expect([...form.complaints.keys()], JSON.stringify(change)).toContain(field);
      expect(form.summary.links).toContain(`f-${field}`);
      for (const link of form.summary.links) expect(form.has(link), link).toBe(true);
    }
  });

  test("a log too large for the page is asked for again; one too large for a request is explained", async () => {
    const blank = await client.empty();
    const rows = Array.from({ length: 30_000 }, (_, i) => `${i},${Math.round(1e9 * Math.abs(Math.sin(i * i)))}`);
    const noise = csv(`time,>0.3\n${rows.join("\n")}\n`);
    const form = new FormOfPage(
      await (
        await client.post((await client.empty()).send("preview", { "full_log.file": noise, "room.volume": "30" }))
      ).text(),
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
    const keyed = await client.shown((await client.empty()).send("key"));
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
      const answer = await client.post(
        new FormOfPage("").send(seed % 3 === 0 ? "preview" : "publish", { ...fields, ...log }),
      );
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
      const form = new FormOfPage(await (await client.post((await client.empty()).send("publish", fields))).text());
      expect(form.html).not.toMatch(/<(img|script>)/);
      for (const name of names) expect(form.fields.get(name)).toBe(hostile);
    }
  });
});
