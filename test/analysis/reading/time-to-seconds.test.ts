import { describe, expect, it } from "vitest";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";
import { inTimeOrder, timeToSeconds, toRunSeconds } from "../../../analysis/reading/time-to-seconds.ts";

const seconds = (values: (number | string | null)[], unit: Parameters<typeof timeToSeconds>[1]) => [
  ...timeToSeconds(values, unit).tS,
];

describe("times of a run to seconds", () => {
  it("units", () => {
    expect(seconds([1, 2, 4], "s")).toEqual([0, 1, 3]);
    expect(seconds([1, 2, 4], "min")).toEqual([0, 60, 180]);
    expect(seconds([1, 2, 4], "h")).toEqual([0, 3600, 10_800]);
    expect(seconds(["2026-10-03T18:20:00+02:00", "2026-10-03T16:20:05Z"], "datetime")).toEqual([0, 5]);
  });

  it("milliseconds to the last bit, months by name", () => {
    expect(seconds([0, 2300, 4100], "ms")).toEqual([0, 2.3, 4.1]);
    expect(seconds(["2026-10-03T18:20:00.000Z", "2026-10-03T18:20:02.300Z"], "datetime")).toEqual([0, 2.3]);
    expect(seconds(["30-Apr-2026 23:59:58", "1-May-2026 00:00:01"], "datetime")).toEqual([0, 3]);
  });

  it("keeps missing times and single steps back for cleaning to judge", () => {
    expect(seconds([5, null, 6, 6, 5.5, 7, 8, 9], "s")).toEqual([0, Number.NaN, 1, 1, 0.5, 2, 3, 4]);
  });

  it("turns a log round that comes newest first, and its channels with it", () => {
    const times = timeToSeconds([30, 20, 10], "s");
    expect([...times.tS]).toEqual([0, 10, 20]);
    expect([...inTimeOrder(Float64Array.of(1, 2, 3), times)]).toEqual([3, 2, 1]);
  });

  it.each([
    ["constant-time", [3, 3, 3], "s"],
    ["garbled-time", [1, 9, 2, 8, 3, 7, 1, 5], "s"],
    ["garbled-time", ["a", "b"], "datetime"],
    ["garbled-time", [null, null, 3], "s"],
    ["garbled-time", [], "s"],
    ["ambiguous-date", ["03/04/2026 10:00", "03/04/2026 10:01"], "datetime"],
  ] as const)("%s", (code, values, unit) => {
    expect(() => timeToSeconds(values, unit)).toThrow(expect.objectContaining({ name: "ReadingError", code }));
  });

  it("a day told by the length of the log: past midnight, not past a month", () => {
    const times = timeToSeconds(["03/04/2026 23:59:59", "04/04/2026 00:00:01"], "datetime");
    expect([...times.tS]).toEqual([0, 2]);
  });

  it("marks go the same way as rows", () => {
    const minutes = timeToSeconds([100, 101], "min");
    expect(toRunSeconds(110, minutes.scale)).toBe(600);
    expect(toRunSeconds("110", minutes.scale)).toBe(600);
    const stamped = timeToSeconds(["2026-10-03T18:20:00Z", "2026-10-03T18:20:05Z"], "datetime");
    expect(toRunSeconds("2026-10-03T20:21:00+02:00", stamped.scale)).toBe(60);
    expect(() => toRunSeconds("2026-10-03 18:21:00", stamped.scale)).toThrow(ReadingError);
    expect(() => toRunSeconds(60, stamped.scale)).toThrow(ReadingError);
    const clock = timeToSeconds(["23:59:00", "23:59:10"], "clock");
    expect(toRunSeconds("00:01:00", clock.scale)).toBe(120);
    expect(() => toRunSeconds(Number.NaN, minutes.scale)).toThrow(ReadingError);
  });
});
