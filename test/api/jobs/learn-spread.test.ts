import { afterAll, beforeAll, expect, test } from "vitest";
import { ASSUMED_SPREAD } from "../../../analysis/expected-elsewhere.ts";
import { simulateRuns } from "../../../analysis/simulate/simulate-log.ts";
import { differsNoticeably, learnSpreadAnew } from "../../../api/jobs/learn-spread.ts";
import { listStale } from "../../../db/spreads.ts";
import { leaderboard, newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import {
  SAMPLE_CONFIGURATION,
  sampleScenario,
  sampleTrial,
  sentSeries,
  withoutFlow,
} from "../../support/sample-trial.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

/** A laboratory whose counter reads every cleaner at `bias` of what it is. */
function trialOf(configuration: number, laboratory: number, bias: number, invented = false) {
  const { schedule: _, ...scenario } = sampleScenario(100 * configuration + laboratory);
  const cadrM3PerH = bias * (220 + 40 * configuration);
  const made = simulateRuns({ ...scenario, cleaner: { cadrM3PerH } }, { background: 60, natural: 400, total: 900 });
  return sampleTrial(1, {
    configuration: { ...withoutFlow(SAMPLE_CONFIGURATION), arrangement: `cleaner ${configuration}` },
    invented,
    runs: [
      { role: "natural", series: sentSeries(made.natural.series) },
      { role: "total", series: sentSeries(made.total.series) },
    ],
  });
}

test("the spread is learnt once enough laboratories have tried the same things, applied in batches, and then left alone", async () => {
  const { db, now } = target.deps;
  const biases = [0.7, 1, 1.35];
  const keys = [await newKey(target), await newKey(target), await newKey(target)];
  let last: StoredTrial | null = null;
  for (const configuration of [0, 1]) {
    for (const [i, key] of keys.entries()) last = await store(target, key, trialOf(configuration, i, biases[i]!));
  }
  const invented = [5, 6, 7].map((configuration) => trialOf(configuration, 1, 1, true));
  for (const trial of invented) await store(target, keys[0]!, trial);
  expect(await learnSpreadAnew(db, now)).toMatchObject({
    learnt: false,
    repooled: 0,
    spread: { id: 1, ...ASSUMED_SPREAD },
  });

  for (const [i, key] of keys.entries()) last = await store(target, key, trialOf(2, i, biases[i]!));
  const before = (await leaderboard(target)).entries;
  const first = await learnSpreadAnew(db, now, { batches: 1, size: 2 });
  expect(first).toMatchObject({ learnt: true, repooled: 2, done: false });
  expect((await listStale(db.read, first.spread.id, "", 100)).length).toBe(4);
  const rest = await learnSpreadAnew(db, now);
  expect(rest).toMatchObject({ learnt: false, repooled: 4, done: true });
  const { spread } = rest;
  expect(spread).toMatchObject({ id: 2, source: "learnt", entries: 3 });
  // An SD of 0.33 about 1.02: that of the three laboratories, each off alike in all it measures.
  expect(spread.relative).toBeGreaterThan(0.2);
  expect(spread.relative).toBeLessThan(0.5);
  expect(spread.dof).toBeLessThanOrEqual(2);

  const after = (await leaderboard(target)).entries;
  for (const { id, cadr } of after) {
    const was = before.find((entry) => entry.id === id)!.cadr;
    expect(cadr.u).toBeGreaterThan(was.u);
  }
  const read = (await (await target.request(`/v1/trials/${last!.id}`)).json()) as StoredTrial;
  expect(read.analysis.results[0]!.expected_elsewhere?.spread).toMatchObject({
    source: "learnt",
    relative: spread.relative,
  });
  expect(await learnSpreadAnew(db, now)).toMatchObject({ learnt: false, repooled: 0, spread: { id: 2 } });
}, 60_000);

test("only a change that readers would notice is one", () => {
  const learnt = { ...ASSUMED_SPREAD, source: "learnt" as const };
  expect(differsNoticeably(learnt, { ...learnt, relative: 1.03 * learnt.relative, dof: 9 })).toBe(false);
  expect(differsNoticeably(learnt, { ...learnt, relative: learnt.relative / 1.06 })).toBe(true);
  expect(differsNoticeably(learnt, { ...learnt, dof: 12 })).toBe(true);
  expect(differsNoticeably(ASSUMED_SPREAD, learnt)).toBe(true);
});
