import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ComparisonOut } from "../../../api/wire/comparison.ts";
import { leaderboard, newKey, problemOf, store } from "../../support/client.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

/** A box of its own: the same parts but for the filter's grade. */
const box = (grade: string) => ({
  ...SAMPLE_CONFIGURATION,
  title: `Harbour box, MERV ${grade}`,
  parts: [SAMPLE_CONFIGURATION.parts[0], { ...SAMPLE_CONFIGURATION.parts[1], filter_grade: { system: "MERV", grade } }],
});

describe.each(targets())("$name", ({ start }) => {
  let target: Target;
  let ids: string[];
  beforeAll(async () => {
    target = await start();
    const [first, second] = [await newKey(target), await newKey(target)];
    const shared = { label: "Workshop", volume: { value: 30, unit: "m3", u: 3 }, ventilation: "off" };
    for (const [seed, grade, key, changes] of [
      [1, "11", first, { room: shared }],
      [2, "13", first, { room: shared }],
      [3, "13", second, { room: shared, aerosol: { kind: "incense" } }],
    ] as const) {
      await store(target, key, sampleTrial(seed, { configuration: box(grade), ...changes }));
    }
    const { entries } = await leaderboard(target);
    ids = ["11", "13"].map((grade) => entries.find(({ configuration }) => configuration.title.endsWith(grade))!.id);
  });
  afterAll(() => target.stop());

  const compared = async (query: string) => {
    const answer = await target.request(`/v1/comparison?${query}`);
    expect([answer.status, answer.status === 200 ? "" : await answer.clone().text()]).toEqual([200, ""]);
    return ComparisonOut.strict().parse(await answer.json());
  };

  test("two entries tested in one room are compared as a pair there, and the volume's error cancels", async () => {
    const { pairs, entries } = await compared(`entries=${ids.join(",")}`);
    expect(entries.map(({ id }) => id)).toEqual(ids);
    expect(entries[0]!.cost).toEqual(SAMPLE_CONFIGURATION.costs.find(({ item }) => item === "whole")!.money);
    const [pair] = pairs;
    expect(pair).toMatchObject({ a: ids[0], b: ids[1], paired_rooms: 1 });
    const { value, low, high, u } = pair!.difference!;
    expect(low).toBeLessThan(0); // the same cleaner, simulated: the interval must hold no difference
    expect(high).toBeGreaterThan(0);
    expect(value).toBeCloseTo(entries[0]!.cadr!.value - entries[1]!.cadr!.value, -2);
    expect(u).toBeLessThan(Math.hypot(entries[0]!.cadr!.u, entries[1]!.cadr!.u));
    expect(pair!.p_stronger).toBeGreaterThan(0.02);
    expect(pair!.p_stronger).toBeLessThan(0.98);
    expect(pair!.parts).toEqual([expect.stringContaining("MERV 11 instead of MERV 13")]);
    expect(pair!.conditions).toEqual(["aerosol: salt against incense and salt"]);
  });

  test("powers are compared with the u of both, and that nobody makes what is home-made is no difference", async () => {
    const sold = { ...SAMPLE_CONFIGURATION, kind: "commercial", title: "Sold box", maker: "Nobody", model: "One" };
    const powers = [
      [60, 2],
      [50, 1.5],
    ] as const;
    const configurations = [sold, box("12")];
    for (const [i, [value, u]] of powers.entries()) {
      const changes = { configuration: configurations[i], power: { value, unit: "W", u } };
      await store(target, await newKey(target), sampleTrial(20 + i, changes));
    }
    const { entries } = await leaderboard(target);
    const [a, b] = ["Sold box", "MERV 12"].map(
      (end) => entries.find(({ configuration }) => configuration.title.endsWith(end))!.id,
    );
    const [pair] = (await compared(`entries=${a},${b}`)).pairs;
    expect(pair!.power_difference).toMatchObject({ value: 10, unit: "W", u: 2.5 }); // √(2² + 1.5²)
    expect(pair!.power_difference!.high - 10).toBeCloseTo(1.959964 * 2.5, 5);
    expect(pair!.parts.join()).not.toMatch(/maker|model/);
    const [unmeasured] = (await compared(`entries=${ids[0]},${b}`)).pairs;
    expect(unmeasured!.power_difference).toBeNull();
  });

  test("the other way round the sign and the probability turn", async () => {
    const [one] = (await compared(`entries=${ids.join(",")}`)).pairs;
    const [other] = (await compared(`entries=${ids.toReversed().join(",")}`)).pairs;
    expect(other!.difference!.value).toBeCloseTo(-one!.difference!.value, 9);
    expect(other!.p_stronger).toBeCloseTo(1 - one!.p_stronger!, 9);
  });

  test("in another unit, and on another basis", async () => {
    const [si] = (await compared(`entries=${ids.join(",")}`)).pairs;
    const [cfm] = (await compared(`entries=${ids.join(",")}&unit=cfm&basis=paired`)).pairs;
    expect(cfm!.difference!.value * 1.69901079552).toBeCloseTo(si!.difference!.value, 9);
  });

  test("says what it cannot compare", async () => {
    for (const query of ["", `entries=${ids[0]}`, `entries=${ids[0]},${ids[0]}`, `entries=${ids.join(",")}&basis=x`]) {
      await problemOf(await target.request(`/v1/comparison?${query}`), 422);
    }
    await problemOf(await target.request(`/v1/comparison?entries=${ids[0]},ent-0000000000`), 404);
    const coarse = sampleTrial(4).runs.map(({ role, series }) => ({
      role,
      series: { ...series, channels: series.channels.map((channel) => ({ ...channel, from_um: 0.5, to_um: 3 })) },
    }));
    await store(target, await newKey(target), sampleTrial(4, { configuration: box("11"), runs: coarse }));
    const [other] = (await leaderboard(target, "?band=0.5-3.0")).entries;
    const refused = await problemOf(await target.request(`/v1/comparison?entries=${ids[0]},${other!.id}`), 422);
    expect(refused.detail).toContain("0.5-3.0");
  });
});
