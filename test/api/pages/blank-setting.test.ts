import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { parseHtml, words } from "./html-tree.ts";

const TITLE = "Plover box";

describe("a cleaner that runs in one way only is named without a setting", () => {
  let target: InProcess;
  let trial: string;
  let configuration: string;
  let entries: readonly string[];
  beforeAll(async () => {
    target = await startInProcess();
    const key = await newKey(target);
    const { settings: _, ...described } = SAMPLE_CONFIGURATION;
    const noise = [
      { quantity: "L_pA", level: { value: 48, unit: "dB(A)" }, distance: { value: 1, unit: "m" }, meter: "class_2" },
    ];
    const { setting: __, ...blank } = sampleTrial(5, {
      configuration: { ...described, title: TITLE, arrangement: "two panels" },
      noise,
    });
    const stored = await store(target, key, blank);
    await store(target, key, sampleTrial(6));
    [trial, configuration] = [stored.id, stored.configuration.id];
    entries = (await leaderboard(target)).entries.map(({ id }) => id);
  });
  afterAll(() => target.stop());

  test("on every page that names it", async () => {
    const pages = [
      "/",
      "/configurations",
      `/configurations/${configuration}`,
      `/trials/${trial}`,
      ...entries.map((id) => `/entries/${id}`),
      "/compare",
      `/compare?entries=${entries}`,
      "/room?in=m&volume=20&target=air_changes&air_changes=5",
      `/submit?configuration=${configuration}`,
    ];
    let named = 0;
    for (const page of pages) {
      const html = await (await target.request(page)).text();
      const text = words(parseHtml(html));
      named += text.split(TITLE).length - 1;
      expect([page, /Plover box ?,(?= ?[:.]|\s*$)|, :|Plover box, (?:one test|home-made)/.exec(text)?.[0]]).toEqual([
        page,
        undefined,
      ]);
      expect([page, html.includes("<bdi></bdi>")]).toEqual([page, false]);
    }
    expect(named).toBeGreaterThan(pages.length);
  });
});
