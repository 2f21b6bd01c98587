import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";
import { all, hasClass, one, parseHtml, words } from "./html-tree.ts";

describe("an aerosol that nobody stated is not something else", () => {
  let target: InProcess;
  let silent: StoredTrial;
  let told: StoredTrial;
  beforeAll(async () => {
    target = await startInProcess();
    const key = await newKey(target);
    silent = await store(target, key, sampleTrial(1, { aerosol: undefined }));
    told = await store(target, key, sampleTrial(2, { setting: "low", aerosol: { kind: "other", note: "flour" } }));
  });
  afterAll(() => target.stop());

  const entryOf = ({ entries }: StoredTrial) => (entries as { id: string }[])[0]!;
  const pageOf = async (path: string) => parseHtml(await (await target.request(path)).text());

  test("on the page of the test", async () => {
    const conditions = words(one(await pageOf(`/trials/${silent.id}`), hasClass("conditions")));
    expect(conditions).not.toContain("something else");
    expect(/Not stated: ([^.]*)\./.exec(conditions)![1]!.split(", ")).toContain("aerosol");
    const stated = words(one(await pageOf(`/trials/${told.id}`), hasClass("conditions")));
    expect(stated).toContain("something else: flour");
    expect(/Not stated: ([^.]*)\./.exec(stated)![1]!.split(", ")).not.toContain("aerosol");
  });

  test.each([
    ["high", "not stated", "aerosol not stated, paired"],
    ["low", "something else", "something else, paired"],
  ])("on the page of the cleaner at %s: %s", async (setting, together, each) => {
    const entry = entryOf(setting === "high" ? silent : told);
    const page = await pageOf(`/entries/${entry.id}`);
    expect(words(page)).toContain(`Aerosol of all tests that count: ${together}.`);
    const cells = all(page, (it) => it.attributes["data-head"] === "Aerosol, natural loss").map(words);
    expect(cells).toEqual([each]);
  });

  test("records keep the kind `other`, and entries tell the two apart", async () => {
    for (const trial of [silent, told]) {
      const entry = (await (await target.request(`/v1/entries/${entryOf(trial).id}`)).json()) as EntryOut;
      expect(entry.trials.map((each) => [each.aerosol, each.aerosol_stated])).toEqual([["other", trial === told]]);
    }
  });
});
