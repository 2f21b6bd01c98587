import { createRequire } from "node:module";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { STYLES } from "../../../api/citation/cite.ts";
import { newKey, problemOf, store } from "../../support/client.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

const require = createRequire(import.meta.url);
const { Cite } = require("@citation-js/core");
require("@citation-js/plugin-bibtex");
require("@citation-js/plugin-csl");

describe.each(targets())("citations: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target, "Kiln & Quay");
  });
  afterAll(() => target.stop());
  const cite = async (path: string) => (await target.request(path)).text();
  const configuration = { ...SAMPLE_CONFIGURATION, title: String.raw`Box "A" {50 %} & \co <b>_x_</b>` };

  test("a trial is cited as one test, with who paid, in both units, at its pinned address", async () => {
    const trial = await store(target, key, sampleTrial(8501, { configuration, interest: "lent_or_given" }));
    const plain = await cite(`/v1/trials/${trial.id}/citation`);
    const cadr = trial.analysis.results[0]!.cadr;
    expect(plain).toMatch(
      /^Kiln & Quay \(\d{4}\)\. Clean air delivery rate \(CADR\) of Box "A" \{50 %\} & \\co <b>_x_<\/b>, /,
    );
    expect(plain).toContain(`${cadr.value.toFixed(1)} ± `);
    expect(plain).toMatch(/\d+(\.\d+)? ± \d+(\.\d+)? m³\/h \(\d+(\.\d+)? ± \d+(\.\d+)? cfm\)/);
    expect(plain).toContain("One test; the 95 % interval is about this room of 30.0 ± 1.2 m³ and this counter alone");
    expect(plain).toContain("lent or given for the test");
    expect(plain).toContain("revision 1, method 1.0.0");
    expect(plain).toContain("licence CC0 1.0");
    const [address] = /\S+\/pinned\/\S+/.exec(plain)!;
    const pinned = (await (await target.request(`/v1${new URL(address).pathname}`)).json()) as { sha256: string };
    expect(plain).toContain(`SHA-256 ${pinned.sha256.slice(0, 12)}`);
    expect(await cite(`/v1/citation?of=${encodeURIComponent(new URL(address).pathname)}`)).toBe(plain);

    const [item] = new Cite(await cite(`/v1/trials/${trial.id}/citation?style=biblatex`)).data;
    expect(plain).toContain(item.title);
    expect(item.URL).toBe(address);
  });

  test("an entry is cited as the mean between laboratories, with rooms, testers and prediction", async () => {
    const arrangement = { ...configuration, arrangement: "for citing" };
    const first = await store(target, key, sampleTrial(8502, { configuration: arrangement }));
    await store(target, await newKey(target), sampleTrial(8503, { configuration: arrangement, interest: "paid" }));
    const { entries } = (await (await target.request(`/v1/trials/${first.id}`)).json()) as {
      entries: { id: string }[];
    };
    const plain = await cite(`/v1/entries/${entries[0]!.id}/citation`);
    expect(plain).toContain("Motefall contributors (");
    expect(plain).toContain(
      "2 tests in 2 rooms by 2 testers; the 95 % interval is about the mean between laboratories",
    );
    expect(plain).toContain("1 × bought or built by the tester, 1 × the test was paid for");
    expect(plain).toContain("expected in another room: ");
    const independent = await cite(`/v1/entries/${entries[0]!.id}/citation?basis=independent`);
    expect(independent).toContain("independent tests only; 1 test in 1 room by 1 tester");
  });

  test("a withdrawn or invented record says so in the title", async () => {
    const trial = await store(target, key, sampleTrial(8504, { configuration, invented: true }));
    await target.request(`/v1/trials/${trial.id}/withdrawal`, json({ reason: "no" }, bearer(key)));
    expect(await cite(`/v1/trials/${trial.id}/citation?style=ris`)).toMatch(
      /TI {2}- \[Withdrawn \d{4}-\d\d-\d\d\] \[Invented for demonstration\] Clean air/,
    );
  });

  test("each style has its media type; what cannot be cited is refused", async () => {
    const trial = await store(target, key, sampleTrial(8505, { configuration }));
    for (const [style, { type }] of Object.entries(STYLES)) {
      const answer = await target.request(`/v1/trials/${trial.id}/citation?style=${style}`);
      expect(answer.headers.get("Content-Type")).toBe(`${type}; charset=utf-8`);
    }
    await problemOf(await target.request(`/v1/trials/${trial.id}/citation?style=apa`), 422);
    await problemOf(await target.request(`/v1/trials/${trial.id}/citation?band=5-11`), 404);
    await problemOf(await target.request("/v1/citation?of=/pinned/nothing"), 404);
  });
});
