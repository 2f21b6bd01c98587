import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { range } from "../../../api/pages/figures.ts";
import { nearMiss } from "../../../api/pages/leaderboard/near-miss.ts";
import type { EntryOut } from "../../../api/wire/entry.ts";
import type { LeaderboardOut } from "../../../api/wire/leaderboard.ts";
import { leaderboard } from "../../support/client.ts";
import { all, hasClass, one, words } from "./html-tree.ts";
import { formOf, type ListedBoxes, linkOf, rowsOf, startListedBoxes, submitted, titlesOf } from "./listed-boxes.ts";

describe("what the list of results is asked", () => {
  let target: ListedBoxes;
  let get: ListedBoxes["get"];
  beforeAll(async () => {
    target = await startListedBoxes();
    get = target.get;
  });
  afterAll(() => target.stop());

  test("what is set is shown set, and sending the form again asks the same", async () => {
    const asked =
      "basis=paired&kind=user_built&aerosol=salt&noise_max=50+dB(A)&cost_max=100.5&power_max=0.05+kW&min_rooms=1&unpaired=include&invented=exclude&sort=cadr_low&limit=7&as_of=2099-01-01T00:00:00Z";
    const page = await get(`/?${asked}`);
    const form = formOf(page);
    const sent = new URL(submitted(form), "http://here").searchParams;
    expect(Object.fromEntries(sent)).toEqual({
      band: "0.1-1.0",
      basis: "paired",
      kind: "user_built",
      aerosol: "salt",
      noise_max: "50",
      cost_max: "100.5",
      currency: "EUR",
      power_max: "50",
      min_rooms: "1",
      unpaired: "include",
      invented: "exclude",
      sort: "cadr_low",
      limit: "7",
      as_of: "2099-01-01T00:00:00.000Z",
    });
    expect(titlesOf(page)).toEqual(["Bounded box"]);
    expect("open" in one(page, hasClass("filters")).attributes).toBe(true);
    expect(titlesOf(await get(submitted(form)))).toEqual(titlesOf(page));
    expect(titlesOf(await get(linkOf(page, "No filter")))).toHaveLength(5);
    expect("open" in one(await get("/"), hasClass("filters")).attributes).toBe(false);
    expect(titlesOf(await get(submitted(formOf(await get("/")))))).toHaveLength(5);
  });

  test.each(["", "noise_max=50&cost_max=100", "sort=noise&unit=cfm", "kind=commercial", "band=smoke&limit=2"])(
    "the links to data ask the same as ?%s",
    async (query) => {
      const page = await get(`/?${query}`);
      const links = ["JSON", "CSV", "NDJSON"].map((name) => linkOf(page, name));
      const json = (await (await target.request(links[0]!)).json()) as LeaderboardOut;
      const shown = titlesOf(page);
      expect(json.entries.map(({ configuration }) => configuration.title).slice(0, shown.length)).toEqual(shown);
      expect(json.unit).toBe(query.includes("cfm") ? "[cft_i]/min" : "m3/h");
      for (const link of links.slice(1)) {
        const lines = (await (await target.request(link)).text()).split("\n").slice(0, -1);
        expect(lines).toHaveLength(json.entries.length + (link.includes("csv") ? 1 : 0));
      }
    },
  );

  test.each([
    ["single_unpaired", "", "Show it too", "1 left out: it rests on a single unpaired test (natural loss assumed"],
    ["mixed_aerosol", "aerosol=salt", "Show any aerosol", "2 left out: they were tested with other aerosols too"],
    ["no_noise", "noise_max=50", "Show without this limit", "1 left out: no noise at 1 m was measured of it"],
    ["no_noise", "sort=noise&noise_max=50", "Show all in order of clean air", "1 left out: no noise at 1 m"],
    ["noise_bound", "noise_max=40", "Show without this limit", "1 left out: only a level that its noise stays under"],
    ["noise_bound", "sort=noise_for_300", "Show all in order of clean air", "1 left out: only a level that its noise"],
    ["no_power", "power_max=50", "Show without this limit", "1 left out: no power above 0 W was measured of it"],
    ["no_power", "sort=cadr_per_watt", "Show all in order of clean air", "1 left out: no power above 0 W"],
    ["no_cost", "cost_max=100", "Show without this limit", "1 left out: no price of the whole is stated for it"],
    ["other_currency", "sort=cadr_per_cost", "Show all in order of clean air", "1 left out: its price is not in EUR"],
  ] as const)(
    "left out for %s by ?%s is counted in words, and a link brings it back",
    async (reason, query, link, said) => {
      const before = await get(`/?${query}`);
      const told = all(one(before, hasClass("list-says")), "p").find((it) => words(it).startsWith(said))!;
      expect(told && words(told)).toContain(said);
      const back = linkOf(told, link);
      const { excluded } = await leaderboard(target, `?${query}`.replace("cost_max=100", "cost_max=100+EUR"));
      expect(Number.parseInt(said, 10)).toBe(excluded[reason]);
      const after = await leaderboard(target, back.slice(1));
      expect(after.excluded[reason]).toBeUndefined();
      expect(titlesOf(await get(back))).toHaveLength(after.shown);
    },
  );

  test.each([
    ["noise_max", "loud"],
    ["noise_max", "1,200"],
    ["cost_max", "cheap"],
    ["cost_max", "100 EURO"],
    ["currency", "euro"],
    ["power_max", "-1"],
    ["min_rooms", "0"],
    ["kind", "stolen"],
    ["basis", "some"],
    ["band", "0.3"],
    ["aerosol", "fog"],
    ["sort", "title"],
    ["unpaired", "yes"],
    ["invented", "only"],
  ])("a wrong %s (%s) is complained of beside its field, which keeps it", async (name, value) => {
    const page = await get(`/?${new URLSearchParams({ [name]: value, min_rooms: "2", ...{ [name]: value } })}`, 422);
    const control = one(page, (it) => it.attributes.name === name && it.tag !== "a");
    expect(control.attributes["aria-invalid"]).toBe("true");
    const complaint = one(page, (it) => it.attributes.id === control.attributes["aria-describedby"]);
    expect(words(complaint).length).toBeGreaterThan(10);
    expect(words(one(page, (it) => it.attributes.role === "alert"))).toContain(value);
    if (control.tag === "input" && control.attributes.type !== "checkbox") expect(control.attributes.value).toBe(value);
    if (name !== "min_rooms") expect(one(page, (it) => it.attributes.name === "min_rooms").attributes.value).toBe("2");
    expect(rowsOf(page)).toEqual([]);
  });

  test.each(["noise_max=46,5&power_max=31,25", "cost_max=99,5&currency=EUR", "cost_max=99,5+EUR"])(
    "?%s: decimals after a comma are those after a point",
    async (query) => {
      const page = await get(`/?${query}`);
      const pointed = await get(`/?${query.replaceAll(",", ".")}`);
      expect(titlesOf(page)).toEqual(titlesOf(pointed));
      expect(submitted(formOf(page))).toBe(submitted(formOf(pointed)));
      expect(titlesOf(page).length).toBeLessThan(titlesOf(await get("/")).length);
    },
  );

  test("what a list for one aerosol leaves out is named, with what it did with that aerosol alone", async () => {
    const page = await get("/?aerosol=salt");
    const named = all(one(page, hasClass("mixed")), "li");
    expect(named.map((item) => words(one(item, "a"))).sort()).toEqual(["Twin one, High", "Twin two, High"]);
    for (const item of named) {
      const { href } = one(item, "a").attributes;
      const id = /cfg-\w+/.exec(href!)![0];
      const { entries } = (await (await target.request(`/v1/configurations/${id}`)).json()) as {
        entries: { id: string; band: string }[];
      };
      const entry = entries.find(({ band }) => band === "0.1-1.0")!;
      const { by_aerosol: figures } = (await (await target.request(`/v1/entries/${entry.id}`)).json()) as EntryOut;
      const salt = figures.find(({ aerosol }) => aerosol === "salt")!;
      expect(words(item).replaceAll("\u00a0", " ")).toContain(
        `with salt alone ${range(salt.cadr)} m³/h, from 1 test in 1 room by 1 tester`,
      );
    }
    const ofAll = await leaderboard(target, "?aerosol=salt");
    expect(ofAll.mixed.map(({ own }) => own?.aerosol)).toEqual(["salt", "salt"]);
    expect((await leaderboard(target, "?aerosol=salt&basis=independent")).mixed.map(({ own }) => own)).toEqual([]);
    expect((await leaderboard(target)).mixed).toEqual([]);
  });

  test.each(["limit=0", "as_of=yesterday", "cursor=nowhere", "noise_max=40&noise_max=50"])(
    "?%s shows the form with the complaint, no bare error",
    async (query) => {
      const page = await get(`/?${query}`, 422);
      expect(words(one(page, (it) => it.attributes.role === "alert"))).toContain(
        query.split("=")[0] === "noise_max" ? "2 times" : query.split("=")[0]!,
      );
      formOf(page);
    },
  );

  test("a parameter that is nearly one is told, others are nobody's business", async () => {
    const page = await get("/?nois_max=50&utm_source=x&__proto__=1");
    expect(words(page)).toContain("The address asks for nois_max, which means nothing here. Was noise_max meant?");
    expect(words(page)).not.toContain("utm_source");
    expect(rowsOf(page)).toHaveLength(5);
    const known = ["noise_max", "cost_max", "unit", "kind", "as_of"];
    expect(
      ["Noise-Max", "noisemax", "costmax", "unti", "kinds", "fbclid", "ref", "page"].map((it) => nearMiss(it, known)),
    ).toEqual(["noise_max", "noise_max", "cost_max", null, "kind", null, null, null]);
  });
});
