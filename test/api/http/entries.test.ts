import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { EntryOut } from "../../../api/wire/entry.ts";
import { FiltersOut } from "../../../api/wire/filters.ts";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

const CONFIGURATION = {
  ...SAMPLE_CONFIGURATION,
  settings: [
    {
      label: "High",
      stated_power: { value: 38, unit: "W" },
      stated_noise: { quantity: "L_pA", level: { value: 40, unit: "dB(A)" }, distance: { value: 2, unit: "m" } },
    },
  ],
  costs: [
    { item: "whole", money: { value: 60, currency: "EUR", date: "2026-09-01" } },
    { item: "filter_set", money: { value: 24, currency: "EUR", date: "2026-09-01" } },
  ],
  filter_life: { value: 6, unit: "mo" },
};
const noise = [
  {
    quantity: "L_pA",
    level: { value: 50, unit: "dB(A)" },
    background: { value: 25, unit: "dB(A)" },
    distance: { value: 1, unit: "m" },
    meter: "class_2",
  },
];

describe.each(targets())("$name", ({ start }) => {
  let target: Target;
  let stored: StoredTrial;
  let id: string;
  beforeAll(async () => {
    target = await start();
    const [one, other] = [await newKey(target), await newKey(target)];
    const configuration = CONFIGURATION;
    const power = { value: 40, unit: "W", u: 0.5 };
    stored = await store(target, one, sampleTrial(1, { configuration, noise, power }));
    const runs = sampleTrial(2).runs.filter(({ role }) => role !== "natural");
    await store(target, other, sampleTrial(2, { configuration, runs, interest: "paid", aerosol: { kind: "incense" } }));
    id = (await leaderboard(target)).entries[0]!.id;
  });
  afterAll(() => target.stop());

  const read = async (query = "") => {
    const answer = await target.request(`/v1/entries/${id}?${query}`);
    expect(answer.status).toBe(200);
    return EntryOut.strict().parse(await answer.json());
  };

  test("every basis has its own members, intervals and prediction", async () => {
    const { bases } = await read();
    expect(bases.all).toMatchObject({
      trials: 2,
      rooms: 2,
      submitters: 2,
      unpaired: 1,
      aerosols: { incense: 1, salt: 1 },
    });
    for (const basis of ["independent", "paired", "independent_paired"] as const) {
      expect(bases[basis]).toMatchObject({ trials: 1, rooms: 1, unpaired: 0, left_out_change: null, i2: null });
    }
    const { cadr, prediction, tau, q, spread, left_out_change } = bases.all!;
    expect(prediction!.low).toBeLessThan(cadr!.low);
    expect(prediction!.high).toBeGreaterThan(cadr!.high);
    expect(tau).toBeGreaterThan(0);
    expect(q).toBeGreaterThanOrEqual(0);
    expect(spread).toMatchObject({ relative: 0.13, dof: 8, source: "assumed" });
    expect(Math.abs(left_out_change!.value)).toBeGreaterThan(0);
    const cfm = (await read("unit=cfm")).bases.all!;
    expect(cfm.cadr!.value * 1.69901079552).toBeCloseTo(cadr!.value, 9);
    expect(cfm.prediction!.low * 1.69901079552).toBeCloseTo(prediction!.low, 9);
  });

  test("noise and power are those measured; what is stated stands apart", async () => {
    const { bases, stated } = await read();
    expect(bases.all!.noise).toMatchObject({ unit: "dB", weighting: "A" });
    expect(bases.all!.noise!.value).toBeCloseTo(50, 1);
    expect(bases.all!.noise_trials).toBe(1);
    expect(bases.all!.power!.value).toBeCloseTo(40, 9);
    expect(stated.noise!.value).toBeCloseTo(40 + 20 * Math.log10(2), 9);
    expect(stated.power).toEqual({ value: 38, unit: "W" });
    const { cadr, cadr_per_watt, cadr_per_cost } = bases.all!;
    expect(cadr_per_watt).toMatchObject({ value: cadr!.value / 40, unit: "m3/h/W" });
    expect(cadr_per_cost).toMatchObject({ value: cadr!.value / 60, unit: "m3/h/EUR" });
  });

  test("a year costs electricity by the hour and filters by the calendar or the hour", async () => {
    expect((await read()).yearly_cost).toBeNull();
    const { yearly_cost: year } = await read("electricity_price=0.30+EUR&hours=12");
    expect(year!.electricity).toMatchObject({ currency: "EUR", power_basis: "measured" });
    expect(year!.electricity!.kwh).toBeCloseTo(0.04 * 12 * 365.25, 9);
    expect(year!.electricity!.value).toBeCloseTo(0.3 * 0.04 * 12 * 365.25, 9);
    expect(year!.filters!.sets).toBeCloseTo(2, 9); // six months each, however long it runs
    expect(year!.total!.value).toBeCloseTo(year!.electricity!.value + 48, 9);
    const { yearly_cost: hourly } = await read("electricity_price=0.30+USD&hours=12&filter_life=4383+h");
    expect(hourly!.filters!.sets).toBeCloseTo(1, 9); // 12 · 365.25 = 4383 hours a year
    expect(hourly!.total).toBeNull(); // two currencies are not added
    for (const query of ["hours=25", "hours=0", "electricity_price=0.3", "hours=8&filter_life=6", "unit=kg"]) {
      await problemOf(await target.request(`/v1/entries/${id}?${query}`), 422);
    }
  });

  test("by aerosol it is pooled on reading", async () => {
    const { by_aerosol, bases } = await read();
    expect(by_aerosol.map(({ aerosol, trials }) => [aerosol, trials])).toEqual([
      ["incense", 1],
      ["salt", 1],
    ]);
    const salt = by_aerosol.find(({ aerosol }) => aerosol === "salt")!;
    expect(salt.cadr.value).toBeCloseTo(bases.independent!.cadr!.value, 9); // the independent trial is the salt one
    const alone = await target.request(`/v1/entries/${id}/aerosols`);
    expect(((await alone.json()) as EntryOut).by_aerosol).toEqual(by_aerosol);
  });

  test("each room's figure stands beside the pool it enters, in the unit asked for", async () => {
    const { by_room: rooms, trials, bases } = await read();
    expect(rooms).toHaveLength(2);
    expect(rooms.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    const mean = rooms.reduce((sum, { cadr, weight }) => sum + weight * cadr.value, 0);
    expect(mean).toBeCloseTo(bases.all!.cadr!.value, 9);
    for (const { room, trials: inRoom, cadr, paired, interest, corrected } of rooms) {
      const trial = trials.find(({ id }) => id === inRoom[0])!;
      expect(trial.room).toBe(room.id);
      expect(cadr.value).toBeCloseTo(trial.cadr!.value, 9); // a room of one trial
      expect(cadr.u / trial.cadr!.u).toBeGreaterThan(0.9);
      expect(cadr.u / trial.cadr!.u).toBeLessThan(1.1);
      expect([paired, corrected]).toEqual([trial.paired ? 1 : 0, null]);
      expect(interest).toEqual({ [trial.interest]: 1 });
      expect(room.label).toBe("Back room");
    }
    const cfm = (await read("unit=cfm")).by_room[0]!.cadr;
    expect(cfm.high * 1.69901079552).toBeCloseTo(rooms[0]!.cadr.high, 9);
    expect(trials[0]).toMatchObject({ performed_at: "2026-10-03T18:20:00+02:00", submitter: { handle: null } });
  });

  test("one box by its filters, and nothing else", async () => {
    const [fan, filter] = CONFIGURATION.parts;
    const better = {
      ...CONFIGURATION,
      title: "Finer",
      parts: [fan, { ...filter, filter_grade: { system: "MERV", grade: "14" } }],
    };
    const stronger = { ...CONFIGURATION, title: "Stronger", parts: [{ ...fan, count: 2 }, filter] };
    const key = await newKey(target);
    await store(target, key, sampleTrial(3, { configuration: better }));
    await store(target, key, sampleTrial(4, { configuration: stronger }));
    const answer = await target.request(`/v1/configurations/${stored.configuration.id}/filters`);
    const { boxes } = FiltersOut.parse(await answer.json());
    expect(boxes.map(({ title, entries }) => [title, entries.length])).toEqual([
      [CONFIGURATION.title, 1],
      ["Finer", 1],
    ]);
    expect(boxes[1]!.differs).toEqual([expect.stringContaining("MERV 14 instead of MERV 13")]);
    expect(boxes[0]!.filters).toEqual(["1 × pleated panel, 500 x 500 x 50 mm, MERV 13"]);
  });
});
