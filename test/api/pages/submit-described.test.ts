import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { newKey, store } from "../../support/client.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { openSubmit, type SubmitInBrowser } from "../../support/submit-in-browser.ts";
import { CONDITIONS, csv, DESCRIPTION, FormClient } from "./form-client.ts";

describe("a cleaner that is described, without scripts", () => {
  let target: InProcess;
  let client: FormClient;
  let stored: string;
  let key: string;
  beforeAll(async () => {
    target = await startInProcess();
    client = new FormClient(target);
    key = await newKey(target);
    stored = (await store(target, key, sampleTrial(1, { invented: true }))).configuration.id;
  });
  afterAll(() => target.stop());

  test("whoever describes one and chooses none means the one described", async () => {
    const { configuration: _, ...described } = DESCRIPTION;
    const form = await client.shown((await client.empty()).send("publish", described), 422);
    expect(form.complaints.has("configuration")).toBe(false);
    expect(form.fields.get("configuration")).toBe("described");
    expect(form.html).toMatch(/<details open=""[^>]*><summary>Describe it/);
    expect((await client.empty()).html).not.toMatch(/<details open=""[^>]*><summary>Describe it/);
  });

  test("a price needs no more than its figure: today's, in euros, or in dollars for readers in cfm", async () => {
    const today = target.deps.now().toISOString().slice(0, 10);
    const blank = await client.empty();
    expect([blank.fields.get("described.currency"), blank.fields.get("described.cost_date")]).toEqual(["EUR", today]);
    expect((await client.empty("/submit?unit=cfm")).fields.get("described.currency")).toBe("USD");
    const form = await client.shown(blank.send("publish", { ...DESCRIPTION, "described.cost": "45,50" }), 422);
    expect([...form.complaints.keys()].filter((field) => field.startsWith("described"))).toEqual([]);
  });

  test("a found one is marked as invented, and tested at a setting it has not got yet it stays the same", async () => {
    const found = await client.shown((await client.empty()).send("find", { find: "harbour" }));
    expect(found.html).toMatch(/<em>invented<\/em>: every test of it so far is made up/);
    const copy = found.send("rows", { "full_log.file": csv(), "room.volume": "30" });
    copy.delete("do");
    copy.set("copy", stored);
    const form = await client.shown(copy);
    expect(form.fields.get("described.title")).toBe(SAMPLE_CONFIGURATION.title);
    expect(form.fields.get("described.setting")).toBe("");
    expect(form.fields.get("configuration")).toBe("described");
    const sent = form.send("publish", { ...CONDITIONS, key, "described.setting": "medium" });
    const answer = await client.post(sent);
    expect(answer.status).toBe(303);
    const id = /trl-\w+/.exec(answer.headers.get("Location")!)![0];
    const trial = await (await target.request(`/v1/trials/${id}`)).json();
    expect(trial).toMatchObject({ configuration: { id: stored }, setting: "medium" });
    const again = await client.shown((await client.empty()).send("find", { find: "harbour" }));
    expect(again.html).not.toContain("every test of it so far is made up"); // a real test of it by now
  });
});

describe.skipIf(!chromiumPath)("a cleaner that is described, where scripts run (Debian's chromium)", () => {
  let submit: SubmitInBrowser;
  beforeAll(async () => {
    submit = await openSubmit();
    await store(submit.target, await newKey(submit.target), sampleTrial(1, { invented: true }));
  }, 60_000);
  afterAll(() => submit?.stop());
  afterEach(() => expect(submit.complaints()).toEqual([]));

  test("the choice opens the description, the description makes the choice", async () => {
    const page = await submit.ready(await submit.open());
    const choice = page.locator("input[name=configuration][value=described]");
    expect(await page.isVisible("#f-described-title")).toBe(false);
    await choice.check();
    expect(await page.isVisible("#f-described-title")).toBe(true);
    await page.evaluate("localStorage.clear()");
    const other = await submit.ready(await submit.open());
    await other.getByText("Describe it", { exact: true }).click();
    await other.fill("#f-described-title", "Knot box");
    expect(await other.isChecked("input[name=configuration][value=described]")).toBe(true);
  });

  test("another setting of a found one is asked for in its own description", async () => {
    const page = await submit.ready(await submit.open());
    await page.fill("#f-find", "harbour");
    await page.getByRole("button", { name: "Another setting" }).click();
    await page.locator("#f-described-title").waitFor();
    expect(await page.inputValue("#f-described-parts-0-description")).toBe("axial fan, 200 mm");
    expect(await page.evaluate("document.activeElement.id")).toBe("f-described-setting");
    expect(await page.isChecked("input[name=configuration][value=described]")).toBe(true);
    expect(await page.locator("#found").getByText("invented").count()).toBe(1);
  });
});
