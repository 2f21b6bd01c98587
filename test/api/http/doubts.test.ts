import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, type StoredTrial, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

type Doubted = StoredTrial & { readonly doubts: readonly { readonly code: string; readonly message: string }[] };

describe.each(targets())("doubts: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  const put = async (trial: unknown, by = key) => (await store(target, by, trial)) as Doubted;
  const volume = (value: number) => ({ label: `${value} m³`, volume: { value, unit: "m3", u: 0.02 * value } });
  const cleaner = (arrangement: string) => ({ ...SAMPLE_CONFIGURATION, arrangement });
  type Values = { runs: readonly { series: { channels: readonly { values: readonly (number | null)[] }[] } }[] };

  /** The trial of a seed with every reading changed. */
  function altered(seed: number, change: (y: number) => number, more = {}) {
    const trial = structuredClone(sampleTrial(seed, more)) as ReturnType<typeof sampleTrial> & Values;
    const runs = trial.runs.map((run) => {
      const channels = run.series.channels.map((channel) => {
        return { ...channel, values: channel.values.map((y) => (y === null ? null : change(y))) };
      });
      return { ...run, series: { ...run.series, channels } };
    });
    return { ...trial, runs };
  }

  test("a volume with a misplaced point is stored, said to wait, and ranks nowhere until a person lists it", async () => {
    const trial = await put(sampleTrial(8301, { configuration: cleaner("point"), room: volume(4153) }));
    expect(trial.state).toBe("pending");
    expect(trial.doubts.map(({ code }) => code)).toContain("volume-unlikely");
    expect((await leaderboard(target)).entries).toEqual([]);
    const page = await (await target.request(`/trials/${trial.id}`)).text();
    expect(page).toContain("It waits for a person to check it and does not count yet");
    expect(page).toContain("hardly a room has the volume that was stated");

    const listing = { subject: trial.id, action: "list", reason: "an aircraft hangar, with photographs" };
    const listed = await target.request("/v1/moderation", json(listing, bearer(settings.operatorKey)));
    expect((await listed.json()) as Doubted).toMatchObject({ state: "listed", doubts: trial.doubts });
    const [entry] = (await leaderboard(target)).entries;
    expect(entry).toMatchObject({ trials: 1, serious: 1 }); // its finding stays beside the figure
    expect(await (await target.request("/")).text()).toContain("its one test has a serious finding");
  });

  test("more clean air than the fan moves", async () => {
    const trial = await put(sampleTrial(8302, { configuration: cleaner("flow"), room: volume(80) }));
    expect(trial).toMatchObject({ state: "pending", doubts: [{ code: "cadr-above-flow" }] });
  });

  test("another's readings, as they were or in disguise", async () => {
    const first = await put(sampleTrial(8303, { configuration: cleaner("copied") }));
    expect(first).toMatchObject({ state: "listed", doubts: [] });
    const other = await newKey(target);
    const equal = await put(sampleTrial(8303, { configuration: cleaner("copy"), note: "mine" }), other);
    expect(equal).toMatchObject({ state: "pending", doubts: [{ code: "equal-readings" }] });
    expect(equal.doubts[0]).toMatchObject({ other: first.id });
    const page = await (await target.request(`/trials/${equal.id}`)).text();
    expect(page).toContain(`<a href="/trials/${first.id}">${first.id}</a>`);
    expect(page).toContain(`<a href="/method#doubt-equal-readings">`);
    const scaled = await put(
      altered(8303, (y) => 1.31 * y + 2, { configuration: cleaner("scaled") }),
      other,
    );
    expect(scaled).toMatchObject({ state: "pending", doubts: [{ code: "same-scatter" }] });
    // The same submitter may use a log for two things, as two filters read one after the other.
    const own = await put(altered(8303, (y) => y, { configuration: cleaner("own"), note: "again" }));
    expect(own.state).toBe("listed");
    expect((await put(sampleTrial(8304, { configuration: cleaner("copied") }), other)).state).toBe("listed");
  });
});
