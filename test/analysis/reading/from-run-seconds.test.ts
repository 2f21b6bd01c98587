import { describe, expect, it } from "vitest";
import { fromRunSeconds } from "../../../analysis/reading/from-run-seconds.ts";
import { type TimeUnit, timeToSeconds, toRunSeconds } from "../../../analysis/reading/time-to-seconds.ts";

const LOGS: [TimeUnit, (number | string)[]][] = [
  ["s", [0.0789, 1.08, 2.08]],
  ["s", [1_790_000_000, 1_790_000_001]],
  ["ms", [1_790_000_000_123, 1_790_000_001_123]],
  ["min", [100, 101]],
  ["h", [0.5, 0.6]],
  ["d", [45_000.25, 45_000.26]],
  ["datetime", ["2026-10-03T18:20:00.250+02:00", "2026-10-03T18:20:05+02:00"]],
  ["datetime", ["2026-10-03 18:20:00", "2026-10-03 18:20:05"]],
  ["clock", ["23:59:00", "23:59:10"]],
  ["clock", ["00:00:05.5", "00:00:07"]],
];

describe("seconds after the first row, in the log's own time", () => {
  it.each(LOGS)("%s goes there and back", (unit, values) => {
    const { scale } = timeToSeconds(values, unit);
    for (const seconds of [0, 0.25, 59.999, 60, 1318.2, 3600, 90_000, 200_000]) {
      expect(toRunSeconds(fromRunSeconds(seconds, scale), scale)).toBeCloseTo(seconds, 3);
    }
  });

  it("stamps are RFC 3339 in UTC, or without a zone where the log has none", () => {
    const zoned = timeToSeconds(["2026-10-03T18:20:00+02:00", "2026-10-03T18:20:05+02:00"], "datetime");
    expect(fromRunSeconds(90, zoned.scale)).toBe("2026-10-03T16:21:30.000Z");
    const bare = timeToSeconds(["03.10.2026 18:20:00", "03.10.2026 18:20:05"], "datetime");
    expect(fromRunSeconds(90, bare.scale)).toBe("2026-10-03T18:21:30.000");
  });

  it("a clock goes on counting past midnight", () => {
    const { scale } = timeToSeconds(["23:59:00", "23:59:10"], "clock");
    expect(fromRunSeconds(120, scale)).toBe("24:01:00.000");
  });
});
