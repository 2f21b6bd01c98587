import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { SLOTS } from "../../../api/pages/submit/form-fields.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { CONDITIONS, csv, DESCRIPTION, FormClient } from "./form-client.ts";
import { FormOfPage } from "./form-of-page.ts";

describe("what somebody might send to the form to do harm", () => {
  let target: InProcess;
  let client: FormClient;
  beforeAll(async () => {
    target = await startInProcess();
    client = new FormClient(target);
  });
  afterAll(() => target.stop());

  const kept = (text: string) => gzipSync(text).toString("base64");

  test("kept logs that unpack to more than a request may hold are refused unread", async () => {
    const packed = kept("1,2\n".repeat(2 ** 20)); // 4 MiB each, of 5 KB
    const all = Object.fromEntries(SLOTS.map((slot) => [`${slot}.kept`, packed]));
    const form = await client.shown(new FormOfPage("").send("preview", { "room.volume": "30", ...all }), 422);
    expect(form.complaints.get("full_log-file")).toContain("about 1048576 rows; at most 100000");
    for (const slot of ["background", "natural", "total"]) {
      expect(form.complaints.get(`${slot}-file`)).toContain("All logs together may hold 4 MiB");
    }
  });

  test("a log of many rows is refused by their number, with line ends of any system and blank lines not counted", async () => {
    for (const end of ["\n", "\r\n", "\r", "\n\n"]) {
      const rows = (n: number) =>
        csv(`time,>0.3 um${end}${Array.from({ length: n }, (_, i) => `${i},${1e6 - i}${end}`).join("")}`);
      const refused = await client.shown(
        (await client.empty()).send("preview", { "full_log.file": rows(110_000), "room.volume": "30" }),
        422,
      );
      expect(refused.complaints.get("full_log-file"), JSON.stringify(end)).toContain("rows; at most 100000");
    }
    const most = csv(`time,>0.3 um\n\n${Array.from({ length: 60_000 }, (_, i) => `${i},${1e6 - i}\n\n`).join("")}`);
    const read = await client.post(
      (await client.empty()).send("preview", { "full_log.file": most, "room.volume": "30" }),
    );
    expect(await read.text()).not.toContain("at most 100000");
  });

  test("a field far longer than it may be is refused and not sent back whole", async () => {
    const long = "<".repeat(1_000_000);
    const answer = await client.post(
      (await client.empty()).send("publish", { note: long, find: long, "room.label": long }),
    );
    const html = await answer.text();
    expect(html.length).toBeLessThan(300_000);
    expect(new FormOfPage(html).complaints.get("note")).toBe("At most 4000 characters.");
  });

  test("a form that another site made the browser send is not taken: not its key, not its words", async () => {
    const body = (await client.empty()).send("preview", { key: "mote_somebody_elses", "room.label": "theirs" });
    for (const site of ["cross-site", "same-site"]) {
      const answer = await target.request("/submit", { method: "POST", body, headers: { "Sec-Fetch-Site": site } });
      expect(answer.status).toBe(403);
      const html = await answer.text();
      expect(html).toContain("another site");
      expect(html).not.toContain("theirs");
      expect(html).not.toContain("mote_somebody");
    }
    for (const site of ["same-origin", "none"]) {
      const answer = await target.request("/submit", { method: "POST", body, headers: { "Sec-Fetch-Site": site } });
      expect(answer.status).toBe(422);
    }
  });

  test("a page with a key in it is stored nowhere; one without may be gone back to", async () => {
    const log = { "full_log.file": csv(), "room.volume": "30" };
    const cacheOf = (answer: Response) => answer.headers.get("Cache-Control");
    expect(cacheOf(await target.request("/submit"))).toBe("private, no-cache");
    expect(cacheOf(await client.post((await client.empty()).send("preview", log)))).toBe("private, no-cache");
    expect(cacheOf(await client.post((await client.empty()).send("preview", { ...log, key: "mote_x" })))).toBe(
      "no-store",
    );
    expect(cacheOf(await client.post((await client.empty()).send("key", log)))).toBe("no-store");
  });

  test("fields of names that objects have of themselves are words like any other", async () => {
    const names = ["__proto__", "constructor", "toString", "described.__proto__.x", "full_log.columns.__proto__.use"];
    const text = "time,__proto__,constructor,toString\n1,2,3,4\n2,2,3,4\n3,2,3,4\n";
    const fields = {
      ...Object.fromEntries(names.map((name) => [name, "x"])),
      "full_log.text": text,
      "room.volume": "30",
    };
    const answer = await client.post(new FormOfPage("").send("publish", { ...DESCRIPTION, ...fields }));
    expect(answer.status).toBe(422);
    expect(await answer.text()).toContain("<bdi>__proto__</bdi>");
  });

  test("published without scripts: led on by a redirect to what the key is for", async () => {
    const log = csv(toCsv(sampleLog(16).series));
    const keyed = await client.shown((await client.empty()).send("key", { "full_log.file": log, "room.volume": "30" }));
    const body = keyed.send("publish", { ...DESCRIPTION, ...CONDITIONS, "described.compared": "yes" });
    const first = await client.post(body);
    expect(first.status).toBe(303);
    const place = first.headers.get("Location")!;
    expect((await client.post(body)).headers.get("Location")).toBe(place);
    expect(place).toMatch(/^\/trials\/trl-\w+\?published=yes$/);
    const page = await (await target.request(place)).text();
    expect(page).toContain("Keep your key");
    expect(page).toContain(`href="${place.replace("?published=yes", "/withdrawal")}"`);
    expect(page).not.toContain(keyed.fields.get("key")!);
    expect(await (await target.request(place.replace("?published=yes", ""))).text()).not.toContain("Keep your key");
  });
});
