import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { leaderboard, newKey, problemOf, store } from "../../support/client.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

const m3 = (value: number, u: number) => ({ value, unit: "m3", u });

describe.each(targets())("rooms: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  const correct = (room: string, body: unknown, headers: Record<string, string> = bearer(key)) =>
    target.request(`/v1/rooms/${room}/revisions`, json(body, headers));
  const configuration = { ...SAMPLE_CONFIGURATION, arrangement: "for rooms" };

  test("a corrected volume moves every entry its trials count in, and no stored result", async () => {
    const room = { label: "Sail loft", volume: m3(30, 0.6) };
    const first = await store(target, key, sampleTrial(8001, { configuration, room, setting: "high" }));
    const second = await store(target, key, sampleTrial(8002, { configuration, room, setting: "low" }));
    const elsewhere = await store(
      target,
      await newKey(target),
      sampleTrial(8003, { configuration: { ...configuration, arrangement: "elsewhere" }, setting: "low" }),
    );
    const before = (await leaderboard(target)).entries;
    const id = (first.room as { id: string }).id;

    const corrected = await correct(id, { volume: m3(36, 0.9), reason: "the bay was forgotten" });
    expect(corrected.status).toBe(201);
    expect(await corrected.json()).toMatchObject({
      id,
      revision: 2,
      volume: { value: 36, u: 0.9, basis: "stated" },
      revisions: [{ value: 30 }, { value: 36 }],
      trials: [{ id: first.id }, { id: second.id }],
    });
    const after = (await leaderboard(target)).entries;
    for (const { id: entry, cadr, configuration: of } of before) {
      const now = after.find((one) => one.id === entry)!.cadr;
      if (of.id === elsewhere.configuration.id) expect(now).toEqual(cadr);
      else expect(now.value / cadr.value).toBeCloseTo(1.2, 12);
    }
    const own = before.find(
      ({ configuration: of, setting }) => of.id === first.configuration.id && setting === "High",
    )!;
    const { by_room: rooms, trials } = (await (await target.request(`/v1/entries/${own.id}`)).json()) as EntryOut;
    expect(rooms[0]!.corrected).toMatchObject({ revision: 2, reason: "the bay was forgotten" });
    expect(rooms[0]!.cadr.value / trials[0]!.cadr!.value).toBeCloseTo(1.2, 12);
    const read = (await (await target.request(`/v1/trials/${first.id}`)).json()) as typeof first;
    expect(read.analysis).toEqual(first.analysis);

    expect((await correct(id, { volume: m3(36, 0.9), reason: "once more" })).status).toBe(200);
    await store(target, key, sampleTrial(8004, { configuration, room, setting: "high" }), 409);
    const third = await store(
      target,
      key,
      sampleTrial(8005, { configuration, room: { ...room, volume: m3(36, 0.9) }, setting: "high" }),
    );
    expect(third.analysis.volume).toMatchObject({ value: 36, u: 0.9 });
    expect(third.room).toMatchObject({ id, revision: 2 });
  });

  test("only its submitter or the operator corrects a room, with a reason, to a volume it can have", async () => {
    const stored = await store(target, key, sampleTrial(8006, { room: { volume: m3(30, 0.6) } }));
    const { id } = stored.room as { id: string };
    const body = { volume: m3(31, 0.6), reason: "a test" };
    await problemOf(await correct(id, body, {}), 401);
    await problemOf(await correct(id, body, bearer(await newKey(target))), 403);
    const wordless = await problemOf(await correct(id, { volume: m3(31, 0.6) }), 422);
    expect(wordless.errors?.[0]?.pointer).toBe("#/reason");
    const side = { value: 2, unit: "m" };
    const full = { length: side, width: side, height: side, displaced_volume: { value: 9, unit: "m3" }, reason: "x" };
    expect((await problemOf(await correct(id, full), 422)).errors?.[0]?.pointer).toBe("#/displaced_volume");
    await problemOf(await correct(id, { ...body, length: side }), 422);
    await problemOf(await target.request(`/v1/rooms/${id.slice(0, -1)}U`), 404);
    expect(await (await target.request(`/v1/rooms/${id}`)).json()).toMatchObject({ revision: 1 });
  });
});
