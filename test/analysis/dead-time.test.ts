import { expect, test } from "vitest";
import { correctDeadTime } from "../../analysis/dead-time.ts";

test("x·e^(−x) = 0.1 has x = 0.111833, and a tenth is lost at x = 0.105361 (computed)", () => {
  // Flow 1 cm³/s and dead time 1 s make the concentration the load itself.
  expect(correctDeadTime(0.1, 1, 1)).toBeCloseTo(0.111833, 6);
  const tenthLost = 0.105361 * Math.exp(-0.105361);
  expect(tenthLost / correctDeadTime(tenthLost, 1, 1)).toBeCloseTo(0.9, 6);
});

test("no dead time, nothing changes; beyond the maximum of x·e^(−x) nothing is claimed", () => {
  expect(correctDeadTime(5000, 47, 0)).toBe(5000);
  expect(correctDeadTime(0, 47, 1e-6)).toBe(0);
  expect(correctDeadTime(0.37, 1, 1)).toBeNaN();
  expect(correctDeadTime(Number.NaN, 1, 1)).toBeNaN();
});
