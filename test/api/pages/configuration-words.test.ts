import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { newKey, store } from "../../support/client.ts";
import { sampleTrial } from "../../support/sample-trial.ts";
import {
  BOX,
  type DescribedBoxes,
  factOf,
  rowsOf,
  startDescribedBoxes,
  tableWith,
  written,
} from "./described-boxes.ts";
import { all, hasClass, one, words } from "./html-tree.ts";

describe("what a configuration's page says around its figures", () => {
  let boxes: DescribedBoxes;
  beforeAll(async () => {
    boxes = await startDescribedBoxes();
  });
  afterAll(() => boxes.target.stop());

  test("the setting and the size asked for are opened; without them those of most tests", async () => {
    expect(words(one(await boxes.opened(""), "h2"))).toBe("High");
    const page = await boxes.get(`/configurations/${boxes.configuration}?setting=low`);
    const [low, high] = all(page, hasClass("setting"));
    expect([words(one(low!, "h2")), words(one(high!, "h2"))]).toEqual(["Low", "High"]);
    expect([low!.attributes.open, high!.attributes.open]).toEqual(["", undefined]);
    expect(words(all(high!, "summary")[0]!)).toContain(`${written(boxes.entry.bases.all!.cadr!)} m³/h`);
    expect(words(all(high!, "summary")[0]!)).toContain("the test was paid for");
    const bands = one(page, (each) => each.attributes["aria-label"] === "Particle sizes");
    expect(all(bands, "a").map((link) => link.attributes["aria-current"])).toContain("page");
    expect(await boxes.main(`/configurations/${boxes.configuration}?band=mass`)).toContain(
      "No test tells of the mass of particles",
    );
    const turbo = all(page, "li").find((item) => words(item).startsWith("Turbo"))!;
    expect(one(turbo, "a").attributes.href).toBe(`/submit?configuration=${boxes.configuration}&setting=Turbo`);
    await boxes.get(`/configurations/${boxes.configuration}?band=9-12`, 422);
  });

  test("parts, costs, filter life, and a plan that leads away without a name", async () => {
    const page = await boxes.get(`/configurations/${boxes.configuration}`);
    const [fan, filter] = rowsOf(tableWith(page, "Part")).map(words);
    expect(fan).toMatch(/^1 × fan: axial fan, 200 mm ?not stated ?400 m³\/h$/);
    expect(filter).toContain("500 x 500 x 50 mm");
    expect(filter).toContain("MERV 13");
    const text = words(one(page, "main"));
    expect(text).toContain("whole cleaner 62 EUR (2026-09-01); set of filters 20 EUR (2026-09-01)");
    expect(text).toContain("6 months");
    expect(text).toContain("Home-made. Described by Slack water on");
    const plan = all(page, "a").find((link) => link.attributes.rel !== undefined)!;
    expect(plan.attributes.rel).toBe("nofollow ugc noopener");
    expect([new URL(plan.attributes.href!).host, words(plan)]).toEqual(["plans.example", "plans.example"]);
    expect(text).toContain("Never leave a filter-taped fan running unattended");
    expect(all(page, "script")).toEqual([]);
  });

  test("a year's cost is worked out, and a wrong figure is told beside its field", async () => {
    const query = "hours=12&electricity_price=0.30+EUR";
    const { yearly_cost: year } = await boxes.data<EntryOut>(`/v1/entries/${boxes.entry.id}?${query}`);
    const section = await boxes.opened(`?setting=high&${query}`);
    expect(factOf(section, "A year")).toContain(`${year!.total!.value.toFixed(2)} EUR: electricity`);
    const page = await boxes.get(`/entries/${boxes.entry.id}?hours=30&electricity_price=0.30+EUR`, 422);
    const alert = one(page, (each) => each.attributes.role === "alert");
    expect(all(alert, "a").map(({ attributes }) => attributes.href)).toEqual(["#f-hours"]);
    const hours = one(page, (each) => each.attributes.id === "f-hours");
    expect(hours.attributes).toMatchObject({
      value: "30",
      "aria-invalid": "true",
      "aria-describedby": "f-hours-error",
    });
    expect(words(one(page, (each) => each.attributes.id === "f-hours-error"))).toContain("up to 24");
    expect(one(page, (each) => each.attributes.id === "f-electricity_price").attributes.value).toBe("0.30 EUR");
  });

  test("in my room: what its form sends is understood", async () => {
    const page = await boxes.get(`/configurations/${boxes.configuration}?setting=low`);
    const form = one(page, (each) => each.attributes.action === "/room");
    const hidden = all(form, "input").filter((input) => input.attributes.type === "hidden");
    const sent = new URLSearchParams(
      Object.fromEntries(hidden.map(({ attributes: { name, value } }) => [name!, value!])),
    );
    sent.set(one(form, (each) => each.attributes.id === "f-volume").attributes.name!, "50");
    sent.set(one(form, "select").attributes.name!, all(form, "option")[0]!.attributes.value!);
    expect(await boxes.main(`/room?${sent}`)).toContain(BOX.title);
  });

  test("one test alone is told for what it is, and an unpaired one as left out", async () => {
    expect(words(one(await boxes.opened("?setting=low"), hasClass("limits")))).toContain("One test only");
    const key = await newKey(boxes.target);
    const runs = sampleTrial(7).runs.filter(({ role }) => role !== "natural");
    const lone = { ...BOX, title: "Lone box", arrangement: "alone" };
    const { configuration: of } = await store(
      boxes.target,
      key,
      sampleTrial(7, { configuration: lone, runs, interest: "maker_or_seller", invented: true }),
    );
    const page = await boxes.get(`/configurations/${of.id}`);
    const text = words(one(page, "main"));
    expect(text).toContain("Invented for demonstration");
    expect(text).toContain("It is unpaired");
    expect(text).toContain("No test of it is by someone who bought or built");
    const form = one(page, (each) => each.attributes.action === "/room");
    expect(all(form, "input").map(({ attributes }) => attributes.name)).toContain("unpaired");
  });

  test("what nobody tested has no figure, and a way to add a test", async () => {
    const key = await newKey(boxes.target);
    const untested = { ...BOX, title: "Untested box", arrangement: "never built" };
    const answer = await boxes.send("/v1/configurations", untested, key, 201);
    const { id } = (await answer.json()) as { id: string };
    const page = await boxes.get(`/configurations/${id}`);
    expect(words(one(page, "main"))).toContain("Nobody has tested it yet.");
    expect(all(page, hasClass("figure"))).toEqual([]);
    expect(all(page, "a").map(({ attributes }) => attributes.href)).toContain(`/submit?configuration=${id}`);
    const row = rowsOf(tableWith(await boxes.get("/configurations?q=untested"), "Cleaner"));
    expect(row.map(words)).toEqual([expect.stringMatching(/^Untested box ?home-made ?not tested ?none ?nobody/)]);
  });
});
