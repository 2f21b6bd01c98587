import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { LeaderboardOut } from "../../../api/wire/leaderboard.ts";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial, withoutFlow } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

/** Boxes of one simulated cleaner in rooms said to be of other volumes: their CADR go with the volume. */
const BOXES = [
  { title: "=HYPERLINK(1)", volume: 20, cost: [40, "EUR"], noise: 38, power: 10, aerosol: "salt", kind: "user_built" },
  { title: "Middle box", volume: 40, cost: [100, "EUR"], noise: 46, power: 30, aerosol: "salt", kind: "user_built" },
  { title: "Large box", volume: 80, cost: [90, "USD"], noise: 60, power: 90, aerosol: "incense", kind: "commercial" },
  { title: "Loud small box", volume: 19, cost: null, noise: 62, power: null, aerosol: "salt", kind: "user_built" },
  {
    title: "Silent about itself",
    volume: 60,
    cost: null,
    noise: null,
    power: null,
    aerosol: "salt",
    kind: "user_built",
  },
] as const;

function trialOf(box: (typeof BOXES)[number], seed: number, changes = {}) {
  const { title, volume, cost, noise, power, aerosol, kind } = box;
  const costs = cost ? [{ item: "whole", money: { value: cost[0], currency: cost[1], date: "2026-09-01" } }] : [];
  const maker = kind === "commercial" ? { maker: "Invented", model: title } : {};
  return sampleTrial(seed, {
    configuration: { ...withoutFlow(SAMPLE_CONFIGURATION), title, arrangement: title, kind, costs, ...maker },
    room: { label: title, volume: { value: volume, unit: "m3", u: 0.4 }, ventilation: "off", mixing_fan: "on" },
    aerosol: { kind: aerosol },
    ...(noise
      ? {
          noise: [
            {
              quantity: "L_pA",
              level: { value: noise, unit: "dB(A)" },
              background: { value: 20, unit: "dB(A)" },
              distance: { value: 1, unit: "m" },
              meter: "class_1",
            },
          ],
        }
      : {}),
    ...(power ? { power: { value: power, unit: "W" } } : {}),
    ...changes,
  });
}

const titles = ({ entries }: LeaderboardOut) => entries.map(({ configuration }) => configuration.title);

describe.each(targets())("$name", ({ start }) => {
  let target: Target;
  let key: string;
  let stored: StoredTrial[];
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
    stored = [];
    for (const [i, box] of BOXES.entries()) stored.push(await store(target, key, trialOf(box, i + 1)));
    // Another laboratory, another aerosol: the middle box is mixed, and has two rooms.
    stored.push(
      await store(
        target,
        await newKey(target),
        trialOf(BOXES[1], 9, { aerosol: { kind: "incense" }, interest: "paid" }),
      ),
    );
  });
  afterAll(() => target.stop());

  const board = async (query: string) => LeaderboardOut.strict().parse(await leaderboard(target, `?${query}`));

  test("strongest first, with rank ranges that hold the rank and widen where intervals overlap", async () => {
    const all = await board("");
    expect(titles(all)).toEqual(["Large box", "Silent about itself", "Middle box", "=HYPERLINK(1)", "Loud small box"]);
    expect(all.entries.map(({ rank }) => rank)).toEqual([1, 2, 3, 4, 5]);
    for (const { rank, rank_low, rank_high } of all.entries) {
      expect(rank_low).toBeLessThanOrEqual(rank);
      expect(rank_high).toBeGreaterThanOrEqual(rank);
    }
    const ranges = Object.fromEntries(all.entries.map((entry) => [entry.configuration.title, entry]));
    expect(ranges["Loud small box"]!.rank_low).toBeLessThanOrEqual(4); // 19 and 20 m³ cannot be told apart
    expect(ranges["Large box"]!.rank_high).toBeLessThan(5);
    expect(all.as_of).toBe(stored.at(-1)!.created_at);
    expect(all.shown).toBe(5);
  });

  test("each filter keeps what it says, and counts what it cannot tell", async () => {
    const cases: [string, string[], object][] = [
      ["kind=commercial", ["Large box"], {}],
      ["aerosol=salt", ["Silent about itself", "=HYPERLINK(1)", "Loud small box"], { mixed_aerosol: 1 }],
      ["aerosol=incense", ["Large box"], { mixed_aerosol: 1 }],
      ["aerosol=wood_smoke", [], {}],
      ["noise_max=50", ["Middle box", "=HYPERLINK(1)"], { no_noise: 1 }],
      ["noise_max=50+dB(A)", ["Middle box", "=HYPERLINK(1)"], { no_noise: 1 }],
      ["power_max=50", ["Middle box", "=HYPERLINK(1)"], { no_power: 2 }],
      ["power_max=0.05+kW", ["Middle box", "=HYPERLINK(1)"], { no_power: 2 }],
      ["cost_max=100+EUR", ["Middle box", "=HYPERLINK(1)"], { no_cost: 2, other_currency: 1 }],
      ["cost_max=99.99EUR", ["=HYPERLINK(1)"], { no_cost: 2, other_currency: 1 }],
      ["min_rooms=2", ["Middle box"], {}],
      ["kind=user_built&noise_max=40&cost_max=50+EUR&min_rooms=1", ["=HYPERLINK(1)"], { no_noise: 1 }],
    ];
    for (const [query, kept, excluded] of cases) {
      const shown = await board(query);
      expect([query, titles(shown), shown.excluded]).toEqual([query, kept, excluded]);
      const told = Object.values(shown.excluded).reduce((sum, count) => sum + count, shown.shown);
      expect(told + shown.turned_down).toBe(BOXES.length);
      expect(shown.entries.map(({ rank }) => rank)).toEqual(kept.map((_, i) => i + 1));
      for (const { rank_high } of shown.entries) expect(rank_high).toBeLessThanOrEqual(kept.length);
    }
  });

  test("each order, and what has no value in it is left out and counted", async () => {
    const orders: [string, string[], object][] = [
      ["cadr_low", ["Large box", "Silent about itself", "Middle box", "=HYPERLINK(1)", "Loud small box"], {}],
      ["cadr_per_watt", ["=HYPERLINK(1)", "Middle box", "Large box"], { no_power: 2 }],
      ["cadr_per_cost", ["=HYPERLINK(1)", "Middle box"], { no_cost: 2, other_currency: 1 }],
      ["noise", ["=HYPERLINK(1)", "Middle box", "Large box", "Loud small box"], { no_noise: 1 }],
      ["noise_for_300", ["=HYPERLINK(1)", "Middle box", "Large box", "Loud small box"], { no_noise: 1 }],
    ];
    for (const [sort, order, excluded] of orders) {
      const shown = await board(`sort=${sort}`);
      expect([sort, titles(shown), shown.excluded]).toEqual([sort, order, excluded]);
    }
    const [quietest] = (await board("sort=noise_for_300")).entries;
    const units = Math.ceil(300 / quietest!.cadr.value);
    expect(quietest!.noise_for_300).toMatchObject({ units });
    expect(quietest!.noise_for_300!.value).toBeCloseTo(quietest!.noise!.value! + 10 * Math.log10(units), 9);
    const { low: quietLow } = quietest!.noise as { low: number };
    expect(quietest!.noise_for_300!.low).toBeCloseTo(quietLow + 10 * Math.log10(units), 9);
    const [cheapest] = (await board("sort=cadr_per_cost")).entries;
    const { value, low, high } = cheapest!.cadr;
    expect(cheapest!.cadr_per_cost).toMatchObject({ value: value / 40, low: low / 40, high: high / 40 });
    const dollars = await board("sort=cadr_per_cost&currency=usd");
    expect([titles(dollars), dollars.currency]).toEqual([["Large box"], "USD"]);
  });

  test("on the frontier is who nobody is both quieter and stronger than, beyond the intervals", async () => {
    const flags = Object.fromEntries((await board("")).entries.map((e) => [e.configuration.title, e.frontier]));
    expect(flags).toEqual({
      "Large box": true,
      "Silent about itself": null,
      "Middle box": true,
      "=HYPERLINK(1)": true,
      "Loud small box": false,
    });
  });

  test("bases pool their own trials, and an entry without any is not in the list", async () => {
    const independent = await board("basis=independent");
    expect(independent.entries.find(({ configuration }) => configuration.title === "Middle box")).toMatchObject({
      trials: 1,
      interest: { independent: 1 },
    });
    expect((await board("basis=independent_paired")).entries).toHaveLength(5);
  });

  test("pages by cursor hold every entry once, in every order", async () => {
    for (const sort of ["cadr", "cadr_low", "noise", "cadr_per_watt"]) {
      const whole = await board(`sort=${sort}`);
      const walked: string[] = [];
      let path: string | null = `/v1/leaderboard?sort=${sort}&limit=2`;
      while (path !== null) {
        const answer: Response = await target.request(path);
        const page = (await answer.json()) as LeaderboardOut;
        walked.push(...page.entries.map(({ id }) => id));
        expect(answer.headers.get("Link")).toBe(page.next === null ? null : `<${page.next}>; rel="next"`);
        path = page.next && new URL(page.next).pathname + new URL(page.next).search;
      }
      expect([sort, walked]).toEqual([sort, whole.entries.map(({ id }) => id)]);
    }
  });

  test("as CSV no cell runs in a spreadsheet; as NDJSON an entry a line", async () => {
    const csv = await target.request("/v1/leaderboard", { headers: { Accept: "text/csv" } });
    expect(csv.headers.get("Content-Type")).toBe("text/csv; charset=utf-8");
    const { data } = Papa.parse<Record<string, string>>((await csv.text()).trim(), { header: true });
    expect(data.map(({ title }) => title)).toContain("'=HYPERLINK(1)");
    expect(data.flatMap((row) => Object.values(row)).filter((cell) => /^[=+@\t\r]/.test(cell))).toEqual([]);
    const [first] = (await board("")).entries;
    expect(Number(data[0]!.cadr)).toBe(first!.cadr.value);
    expect(Number(data[0]!.cadr_per_watt_low)).toBe(first!.cadr_per_watt!.low);
    expect(Number(data[0]!.cadr_per_cost_high)).toBe(first!.cadr_per_cost!.high);
    expect(Number(data[0]!.noise_for_300_db)).toBe(first!.noise_for_300!.value);
    const none = await (await target.request("/v1/leaderboard?format=csv&aerosol=ambient")).text();
    expect(none.split("\r\n")).toEqual([expect.stringContaining("rank,"), ""]);
    const lines = await target.request("/v1/leaderboard?format=ndjson&limit=2");
    expect(lines.headers.get("Content-Type")).toBe("application/x-ndjson; charset=utf-8");
    const entries = (await lines.text())
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as { rank: number });
    expect(entries.map(({ rank }) => rank)).toEqual([1, 2]);
    expect(lines.headers.get("Link")).toContain('rel="next"');
    await problemOf(await target.request("/v1/leaderboard", { headers: { Accept: "image/png" } }), 406);
  });

  test("the tag holds until something happens, and belongs to one query and format", async () => {
    const first = await target.request("/v1/leaderboard?limit=3");
    const tag = first.headers.get("ETag")!;
    const again = (query: string, headers = {}) =>
      target.request(`/v1/leaderboard?${query}`, { headers: { "If-None-Match": `"other", ${tag}`, ...headers } });
    const unchanged = await again("limit=3");
    expect([unchanged.status, await unchanged.text(), unchanged.headers.get("ETag")]).toEqual([304, "", tag]);
    expect((await again("limit=4")).status).toBe(200);
    expect((await again("limit=3", { Accept: "text/csv" })).status).toBe(200);
    stored.push(await store(target, key, trialOf(BOXES[0], 20)));
    expect((await again("limit=3")).status).toBe(200);
  });

  test("a past state is answered as it was, also after a withdrawal", async () => {
    const then = await board("unit=cfm");
    const withdrawal = json({ reason: "the window was open" }, bearer(key));
    await new Promise((resolve) => setTimeout(resolve, 5)); // another instant than that of the last event
    expect((await target.request(`/v1/trials/${stored[2]!.id}/withdrawal`, withdrawal)).status).toBe(200);
    const now = await board("unit=cfm");
    expect(titles(now)).not.toContain("Large box");
    expect(now.as_of! > then.as_of!).toBe(true);
    expect(await board(`unit=cfm&as_of=${then.as_of}`)).toEqual(then);
    expect(await board(`unit=cfm&as_of=${now.as_of}`)).toEqual(now);
    expect((await board("as_of=2020-01-01T00:00:00Z")).entries).toEqual([]);
  });

  test("what it does not know it says", async () => {
    for (const query of [
      "band=0.3",
      "basis=some",
      "sort=title",
      "aerosol=fog",
      "noise_max=loud",
      "noise_max=40+W",
      "cost_max=100",
      "power_max=-1",
      "min_rooms=0",
      "cursor=nowhere",
      "as_of=yesterday",
      "format=xml",
      "unit=furlong",
      "limit=0",
    ]) {
      await problemOf(await target.request(`/v1/leaderboard?${query}`), 422);
    }
  });
});
