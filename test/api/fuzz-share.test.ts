import { expect, test } from "vitest";
import { fuzzBodies } from "../campaigns/fuzz-bodies.ts";
import { startInProcess } from "../support/in-process.ts";

test("300 mutated logs and trials: no 5xx, nothing over a second, numbers where numbers belong", async () => {
  const target = await startInProcess();
  const { faults, statuses } = await fuzzBodies(target.request, 0, 300, 20261103);
  await target.stop();
  expect(faults).toEqual([]);
  expect(statuses[200]).toBeGreaterThan(20); // else nothing got as far as the analysis
  expect(statuses[422]).toBeGreaterThan(20);
}, 60_000);
