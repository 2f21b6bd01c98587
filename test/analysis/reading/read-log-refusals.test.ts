import { describe, expect, it } from "vitest";
import type { ColumnsStated } from "../../../analysis/reading/columns-stated.ts";
import { MAX_VALUES, readLog } from "../../../analysis/reading/read-log.ts";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";

function refusal(source: string | Uint8Array, stated?: ColumnsStated): ReadingError {
  try {
    readLog(source, stated);
  } catch (error) {
    if (error instanceof ReadingError) return error;
    throw error;
  }
  throw new Error("was read");
}

const rows = (values: string[]) => values.map((value, i) => `${value},${100 - i}`).join("\n");
const log = "time,PM2.5,aqi,temp\n0,50,120,20\n10,40,110,20\n20,30,90,20\n";

describe("refusals to read", () => {
  it.each<[string, string, string | Uint8Array]>([
    ["empty", "nothing", ""],
    ["empty", "blanks", " \n\n ,,\n"],
    ["empty", "a header alone", "time,PM2.5\n"],
    ["empty", "comments alone", "# one\n# two\n"],
    ["binary", "a picture", Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13)],
    ["binary", "gzip", Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3, 0x4b)],
    ["no-columns", "prose", "It was a dark night\nand the fan was on\nbut nobody logged\n"],
    ["no-columns", "one column", "PM2.5\n5\n4\n3\n"],
    ["ragged-rows", "decimal commas between commas", "time,PM2.5\n0,5,12,25\n1,5,11,75\n2,5,10,5\n"],
    ["no-time-column", "no time", "PM1,PM2.5\n5,6\n4,5\n3,4\n"],
    ["constant-time", "one moment", `time,PM2.5\n${rows(["7", "7", "7"])}\n`],
    ["constant-time", "one stamp", `time,PM2.5\n${rows(["2026-01-02T03:04:05Z", "2026-01-02T03:04:05Z"])}\n`],
    ["garbled-time", "words", `time,PM2.5\n${rows(["early", "late", "later", "last"])}\n`],
    ["garbled-time", "back and forth", `time,PM2.5\n${rows(["5", "1", "9", "2", "8", "3", "7", "1"])}\n`],
    ["garbled-time", "impossible dates", `time,PM2.5\n${rows(["2026-02-30T00:00:00Z", "2026-13-01T00:00:00Z"])}\n`],
    ["garbled-time", "some with a zone", `time,PM2.5\n${rows(["2026-01-02T00:00:00Z", "2026-01-02T00:00:01"])}\n`],
    [
      "ambiguous-date",
      "third of April or fourth of March",
      `time,PM2.5\n${rows(["03/04/2026 10:00:00", "03/04/2026 10:00:01"])}\n`,
    ],
    ["no-channels", "climate alone", "time,temp_C,rh\n0,20,40\n1,20,41\n"],
    ["no-channels", "words alone", "time,PM2.5\n0,high\n1,low\n"],
    ["non-linear-index", "an index alone", "time,US AQI\n0,150\n1,140\n"],
    ["non-linear-index", "an index and the climate", "time,IAQ,temp\n0,150,20\n1,140,20\n"],
    [
      "too-large",
      "100 001 rows of one channel",
      `time,PM2.5\n${Array.from({ length: MAX_VALUES / 2 + 1 }, (_, i) => `${i},5`).join("\n")}`,
    ],
  ])("%s: %s", (code, _, source) => expect(refusal(source).code).toBe(code));

  it.each<[string, string, ColumnsStated]>([
    ["unknown-column", "time", { t: { column: "zeit" } }],
    ["unknown-column", "channel", { channels: [{ column: "PM10" }] }],
    ["unknown-unit", "time", { t: { column: "time", unit: "fortnight" } }],
    ["unknown-unit", "channel", { channels: [{ column: "PM2.5", unit: "furlong" }] }],
    ["unknown-unit", "of another quantity", { channels: [{ column: "PM2.5", quantity: "number", unit: "ug/m3" }] }],
    ["non-linear-index", "called a mass", { channels: [{ column: "aqi", quantity: "mass", unit: "ug/m3" }] }],
    ["reserved-name", "band", { channels: [{ column: "PM2.5", id: "0.1-1.0" }] }],
    ["reserved-name", "alias", { channels: [{ column: "PM2.5", id: "Smoke" }] }],
    [
      "duplicate-id",
      "twice",
      {
        channels: [
          { column: "PM2.5", id: "a" },
          { column: "temp", id: "a" },
        ],
      },
    ],
    ["garbled-time", "not stamps", { t: { column: "time", unit: "datetime" } }],
    ["no-channels", "none", { channels: [] }],
  ])("%s: %s", (code, _, stated) => expect(refusal(log, stated).code).toBe(code));

  it("says where", () => {
    const error = refusal("time,PM2.5\n0,5\nx,4\ny,3\nz,2\nw,1\n");
    expect([error.code, error.column, error.line]).toEqual(["garbled-time", "time", 3]);
    expect(refusal(log, { channels: [{ column: "nope" }] }).message).toContain("PM2.5");
    expect(refusal("time,PM2.5,PM2.5\n0,1,2\n1,1,2\n", { channels: [{ column: "PM2.5" }] }).code).toBe(
      "duplicate-column",
    );
  });
});
