import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { ConfigurationEntryOut } from "../../../api/view-configuration-entries.ts";
import { newKey, problemOf, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

interface View {
  readonly id: string;
  readonly title: string;
  readonly revision: number;
  readonly derived_from: string | null;
  readonly derivation: { readonly id: string; readonly differs: readonly string[] } | null;
  readonly similar: readonly { readonly id: string; readonly title: string; readonly differs: readonly string[] }[];
  readonly settings: readonly { readonly label: string }[];
  readonly submitter: unknown;
  readonly revised_at: readonly string[];
  readonly merged_from: readonly unknown[];
}

const fan = { part: "fan", count: 1, description: "Axial fan, 200 mm", stated_flow: { value: 400, unit: "m3/h" } };
const housing = { part: "housing", count: 1, description: "birch ply" };
const panel = (grade: string, count = 1) => ({
  part: "filter",
  count,
  description: "pleated panel",
  filter_grade: { system: "MERV", grade },
});
const box = {
  title: "Heron box",
  kind: "user_built",
  arrangement: "one side",
  parts: [fan, housing, panel("13")],
  settings: [{ label: "low" }, { label: "high" }],
};

describe.each(targets())("configurations: $name", ({ start }) => {
  let target: Target;
  let key: string;
  let first: View;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
    first = await create(box);
  });
  afterAll(() => target.stop());

  async function create(configuration: unknown): Promise<View> {
    const answer = await target.request("/v1/configurations", json(configuration, bearer(key)));
    expect(answer.status).toBe(201);
    return (await answer.json()) as View;
  }
  const read = async (id: string) => (await (await target.request(`/v1/configurations/${id}`)).json()) as View;
  const revise = (id: string, configuration: unknown, headers = bearer(key)) =>
    target.request(`/v1/configurations/${id}/revisions`, json(configuration, headers));

  test("similar ones are found, the most alike first, with the difference in words", async () => {
    const finer = await create({
      ...box,
      title: "Heron box, finer",
      parts: [fan, housing, panel("14")],
      derived_from: first.id,
    });
    const double = await create({ ...box, title: "Heron box, two panels", parts: [fan, housing, panel("13", 2)] });
    await create({ ...box, kind: "commercial", maker: "Invented Air", model: "H 1", title: "Heron box" });
    await create({
      title: "Otter tube",
      kind: "user_built",
      parts: [{ part: "other", count: 1, description: "a sock" }],
    });

    const { similar } = await read(first.id);
    expect(similar.map(({ id }) => id)).toEqual([double.id, finer.id]);
    expect(similar[0]!.differs).toEqual(["two filters instead of one: pleated panel"]);
    expect(similar[1]!.differs).toEqual(["filter (pleated panel): MERV 14 instead of MERV 13"]);
    expect(finer.derivation).toMatchObject({ id: first.id, differs: similar[1]!.differs });

    const slow = await create({
      ...box,
      title: "Heron box, slow",
      arrangement: "both sides",
      parts: [fan, panel("13")],
      settings: [{ label: "Low" }],
      derived_from: first.id,
    });
    expect(slow.derivation!.differs).toEqual([
      "arrangement both sides instead of one side",
      "without one housing: birch ply",
      "does not run at high",
    ]);
    const listed = (await (await target.request("/v1/configurations?q=heron")).json()) as { configurations: View[] };
    const one = listed.configurations.find(({ id }) => id === double.id)!;
    expect(one.similar.map(({ id }) => id)).toContain(first.id);
  });

  test("similar ones are found for words that are not stored, the very same one first", async () => {
    const ask = (body: unknown) => target.request("/v1/configurations/similar", json(body));
    const answered = (await (await ask({ ...box, title: "Some crate" })).json()) as Pick<View, "similar">;
    expect(answered.similar[0]).toMatchObject({ id: first.id, differs: [] });
    expect(answered.similar[1]!.differs.length).toBeGreaterThan(0);
    const unlike = { title: "Zebra", kind: "user_built", parts: [{ part: "other", count: 1, description: "a bag" }] };
    expect(await (await ask(unlike)).json()).toEqual({ similar: [] });
    const found = await (await target.request("/v1/configurations?q=Zebra")).json();
    expect(found).toEqual({ configurations: [] });
    const wrong = await problemOf(await ask({ ...unlike, parts: [] }), 422);
    expect(wrong.errors?.[0]?.pointer).toBe("#/parts");
  });

  test("entries stand beside what is stated of their setting", async () => {
    const level = { quantity: "L_pA", level: { value: 40, unit: "dB" }, distance: { value: 1, unit: "m" } };
    const configuration = {
      ...box,
      arrangement: "with a label",
      settings: [{ label: "low", stated_noise: level, stated_power: { value: 30, unit: "W" } }],
    };
    const noise = [{ ...level, level: { value: 43, unit: "dB" }, meter: "class_2" }];
    const trial = sampleTrial(6001, { configuration, setting: "low", noise, power: { value: 36, unit: "W", u: 1 } });
    const stored = await store(target, key, trial);
    const view = (await read(stored.configuration.id)) as unknown as { entries: ConfigurationEntryOut[] };
    const entry = view.entries.find(({ band }) => band === "0.1-1.0")!;
    expect(entry).toMatchObject({ noise: { value: 43 }, power: { value: 36, u: 1 } });
    expect(entry.against_stated.noise!.value).toBeCloseTo(3, 10);
    expect(entry.against_stated.power!.value).toBeCloseTo(1.2, 10);
    expect(entry.against_stated.flow!.value).toBeCloseTo(entry.cadr!.value / 400, 10);
    expect(entry.against_stated.flow!.low).toBeCloseTo(entry.cadr!.low / 400, 10);
    expect(entry.against_stated.flow!.stated).toEqual({ value: 400, unit: "m3/h" });
    expect(entry.against_stated.power!.high).toBeCloseTo(entry.power!.high / 30, 10);
    const { low, high, u } = entry.against_stated.noise!;
    expect((high - low) / 2 / u).toBeCloseTo(1.95996, 4); // both meters' u are taken as known
    expect(entry).toMatchObject({ trials: 1, rooms: 1, interest: { independent: 1 } });
  });

  test("a revision corrects words and adds settings; the parts stay", async () => {
    const words = {
      ...box,
      title: "Osprey crate",
      parts: [{ ...fan, description: "Axial Fan, 200 mm" }, housing, panel("13")],
    };
    const revised = await revise(first.id, { ...words, settings: [{ label: "LOW" }, { label: "turbo" }] });
    expect(revised.status).toBe(201);
    const view = (await revised.json()) as View;
    expect(view).toMatchObject({ id: first.id, revision: 2, title: "Osprey crate" });
    expect(view.settings.map(({ label }) => label)).toEqual(["low", "high", "turbo"]);
    expect((await revise(first.id, words)).status).toBe(200);
    const found = (await (await target.request("/v1/configurations?q=osprey")).json()) as { configurations: View[] };
    expect(found.configurations.map(({ id }) => id)).toEqual([first.id]);

    const other = await problemOf(await revise(first.id, { ...words, parts: [fan, panel("13")] }), 422);
    expect(other.errors?.[0]?.pointer).toBe("#/parts");
    const parent = await problemOf(await revise(first.id, { ...words, title: "x", derived_from: first.id }), 422);
    expect(parent.errors?.[0]?.pointer).toBe("#/derived_from");
    await problemOf(await revise(first.id, words, bearer(await newKey(target))), 403);
    expect((await read(first.id)).revision).toBe(2);
  });

  test("a merged configuration is revised no more, and resembles nothing", async () => {
    const twin = await create({ ...box, title: "Twin", arrangement: "at one side" });
    const body = json({ into: first.id, reason: "a twin" }, bearer(settings.operatorKey));
    expect((await target.request(`/v1/configurations/${twin.id}/merge`, body)).status).toBe(200);
    await problemOf(await revise(twin.id, { ...box, title: "Twins", arrangement: "at one side" }), 409);
    const now = await read(first.id);
    expect(now.similar.map(({ id }) => id)).not.toContain(twin.id);
    expect(now.merged_from).toEqual([{ id: twin.id, at: expect.stringMatching(/Z$/), reason: "a twin" }]);
    expect(now.revised_at).toHaveLength(1);
    expect(now.submitter).toEqual({ id: expect.stringMatching(/^sub-/), handle: null });
  });
});
