import { afterAll, beforeAll, expect, test } from "vitest";
import { STYLES, type Style } from "../../../api/citation/cite.ts";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";

const ENDS: Record<Style, string | null> = {
  plain: null,
  markdown: null,
  bbcode: null,
  html: null,
  bibtex: "bib",
  biblatex: "bib",
  "csl-json": "json",
  ris: "ris",
};

let target: InProcess;
let trial: string;
beforeAll(async () => {
  target = await startInProcess();
  trial = (
    await store(target, await newKey(target), sampleTrial(1, { room: { volume: { value: 30, unit: "m3", u: 0.63 } } }))
  ).id;
});
afterAll(() => target.stop());

test.each(Object.keys(STYLES) as Style[])("%s comes as a file that its readers open, or to be read", async (style) => {
  for (const path of [`/v1/trials/${trial}/citation?`, `/v1/citation?of=/pinned/${trial}/1/1.0.0/0.1-1.0&`]) {
    const answer = await target.request(`${path}style=${style}`);
    expect(answer.status).toBe(200);
    expect(answer.headers.get("Content-Disposition")).toBe(
      ENDS[style] === null ? "inline" : `attachment; filename="motefall-${trial}-1-1.0.0-0.1-1.0.${ENDS[style]}"`,
    );
  }
});

test("a volume has one interval, wherever it stands", async () => {
  const interval = "30.0 ± 1.2 m³"; // 1.96 × 0.63; twice u would be 1.3
  for (const path of [`/trials/${trial}`, `/pinned/${trial}/1/1.0.0/0.1-1.0`, `/v1/trials/${trial}/citation`]) {
    expect(await (await target.request(path)).text()).toContain(interval);
  }
});
