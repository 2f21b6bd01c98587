import { describe, expect, it } from "vitest";
import { readLog } from "../../../analysis/reading/read-log.ts";

/** One log of four rows; every dress of it must read the same. */
const T = [0, 10, 20, 30];
const PM = [1234.5, 800.25, 400, 12.5];

function expectSame(source: string | Uint8Array, id = "PM2.5"): void {
  const { series } = readLog(source);
  expect([...series.tS]).toEqual(T);
  expect(series.channels.map((channel) => channel.id)).toEqual([id]);
  expect([...series.channels[0]!.values]).toEqual(PM);
  expect(series.channels[0]).toMatchObject({ quantity: "mass", unit: "ug/m3", toUm: 2.5, cumulative: "below" });
}

const plain = "time,PM2.5\n0,1234.5\n10,800.25\n20,400\n30,12.5\n";
const utf16 = (text: string, little: boolean) => {
  const bytes = new Uint8Array(2 * text.length);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), little);
  return bytes;
};

describe("dresses of one log", () => {
  it.each([
    ["comma, LF", plain],
    ["CRLF", plain.replaceAll("\n", "\r\n")],
    ["CR", plain.replaceAll("\n", "\r")],
    ["semicolon", plain.replaceAll(",", ";")],
    ["tab", plain.replaceAll(",", "\t")],
    ["byte order mark", `\uFEFF${plain}`],
    ["no last line end", plain.trimEnd()],
    ["semicolon and decimal comma", "time;PM2.5\n0;1234,5\n10;800,25\n20;400\n30;12,5\n"],
    ["tab and decimal comma", "time\tPM2.5\n0,0\t1234,5\n10,0\t800,25\n20,0\t400\n30,0\t12,5\n"],
    ["decimal comma and thousands points", "time;PM2.5\n0;1.234,5\n10;800,25\n20;400,0\n30;12,5\n"],
    ["decimal comma in quotes", 'time,PM2.5\n"0,0","1234,5"\n"10,0","800,25"\n"20,0","400,0"\n"30,0","12,5"\n'],
    ["thousands commas in quotes", 'time,PM2.5\n0,"1,234.5"\n10,800.25\n20,400\n30,12.5\n'],
    ["thousands spaces", "time;PM2.5\n0;1 234,5\n10;800,25\n20;400\n30;12,5\n"],
    ["quoted fields", '"time","PM2.5"\n"0","1234.5"\n"10","800.25"\n"20","400"\n"30","12.5"\n'],
    [
      "comments and blank rows",
      `# made by hand\n// twice\n% thrice\n\n${plain.replace("10,", "\n,\n# pause\n10,")}\n\n`,
    ],
    ["title lines", `Air log\nSerial: 1234, Room 5\nInterval,10 s\n\n${plain}`],
    ["header in a comment", `# log\n# ${plain}`],
    ["newest first", "time,PM2.5\n30,12.5\n20,400\n10,800.25\n0,1234.5\n"],
    ["another origin", "time,PM2.5\n100.5,1234.5\n110.5,800.25\n120.5,400\n130.5,12.5\n"],
    ["columns nobody needs", "time,rh,PM2.5,note\n0,40,1234.5,on\n10,40,800.25,\n20,41,400,\n30,41,12.5,off\n"],
    [
      "a date and a clock",
      "Date,Time,PM2.5\n2026-03-04,23:59:50,1234.5\n2026-03-05,00:00:00,800.25\n2026-03-05,00:00:10,400\n2026-03-05,00:00:20,12.5\n",
    ],
    [
      "day first, told by points",
      "Zeit;PM2.5\n04.03.2026 23:59:50;1234,5\n05.03.2026 00:00:00;800,25\n05.03.2026 00:00:10;400,0\n05.03.2026 00:00:20;12,5\n",
    ],
    [
      "month first, told by a 25th",
      "time,PM2.5\n3/25/2026 9:59:50 PM,1234.5\n3/25/2026 10:00:00 PM,800.25\n3/25/2026 10:00:10 PM,400\n3/25/2026 10:00:20 PM,12.5\n",
    ],
    ["a clock past midnight", "time,PM2.5\n23:59:45,1234.5\n23:59:55,800.25\n00:00:05,400\n00:00:15,12.5\n"],
    [
      "a clock, newest first, past midnight",
      "time,PM2.5\n00:00:15,12.5\n00:00:05,400\n23:59:55,800.25\n23:59:45,1234.5\n",
    ],
    ["a line that names the delimiter", `sep=;\n${plain.replaceAll(",", ";")}`],
    ["an unnamed column of row numbers", ",time,PM2.5\n0,0,1234.5\n1,10,800.25\n2,20,400\n3,30,12.5\n"],
    ["a note over two lines", 'time,PM2.5,note\n0,1234.5,"a\nb"\n10,800.25,\n20,400,\n30,12.5,\n'],
    ["a repeated header", `${plain}time,PM2.5\n`],
    ["a row without a time", plain.replace("20,", "n/a,7\n20,")],
    ["a row that slipped", plain.replace("20,", "1,2,3\n20,")],
    ["a last row cut off", `${plain.replaceAll("\n", ",\n")}40`],
  ])("%s", (_, text) => expectSame(text));

  it.each([
    ["PM2.5 (µg/m³)", "PM2.5 (µg/m³)"],
    ["PM2.5 [ug/m3]", "PM2.5 [ug/m3]"],
    ["PM2.5 ug/m3", "PM2.5 ug/m3"],
    ["pm2_5", "pm2_5"],
    ["pm25_ug_m3", "pm25_ug_m3"],
    ["mPM2.5", "mPM2.5"],
    ["Kitchen PM 2.5", "Kitchen PM 2.5"],
  ])("header %s", (header, id) => expectSame(plain.replace("PM2.5", header), id));

  it("headers with a unit of time", () => {
    for (const header of ["elapsed min", "time (min)", "Time [min]", "time_min", "minutes"]) {
      const { series, scale } = readLog(`${header},PM2.5\n0,1\n0.25,2\n0.5,3\n`);
      expect([...series.tS]).toEqual([0, 15, 30]);
      expect(scale.unit).toBe("min");
    }
    expectSame("time_ms,PM2.5\n0,1234.5\n10000,800.25\n20000,400\n30000,12.5\n");
  });

  it("a row of units below the names", () => {
    expectSame("time,PM2.5\ns,ug/m3\n0,1234.5\n10,800.25\n20,400\n30,12.5\n", "PM2.5 [ug/m3]");
  });

  it("milligrams become micrograms", () => {
    const { series } = readLog("time,PM2.5 (mg/m3)\n0,1.5\n10,1\n");
    expect([...series.channels[0]!.values]).toEqual([1500, 1000]);
  });

  it("UTF-8 bytes, UTF-16 of both orders, Latin-1", () => {
    expectSame(new TextEncoder().encode(plain));
    expectSame(utf16(`\uFEFF${plain}`, true));
    expectSame(utf16(`\uFEFF${plain}`, false));
    expectSame(
      Uint8Array.from(plain.replace("PM2.5", "PM2.5 (µg/m³)"), (c) => c.charCodeAt(0)),
      "PM2.5 (µg/m³)",
    );
  });

  it("no header at all: the first column is the time, the rest is raw, and it says so", () => {
    const read = readLog("0,1234.5,7\n10,800.25,6\n20,400,5\n30,12.5,4\n");
    expect([...read.series.tS]).toEqual(T);
    expect(read.series.channels.map(({ id, quantity }) => [id, quantity])).toEqual([
      ["column 2", "raw"],
      ["column 3", "raw"],
    ]);
    expect(read.columns[0]!.why).toContain("no header");
  });

  it("counts what was left out", () => {
    const read = readLog(plain.replace("20,", "n/a,7\n1,2,3\n\n# pause\n20,"));
    expect(read.rows).toBe(4);
    expect(read.dropped).toEqual([
      { reason: "blank-line", count: 1 },
      { reason: "comment", count: 1 },
      { reason: "ragged-row", count: 1 },
      { reason: "unreadable-time", count: 1 },
    ]);
  });
});

describe("stamped time", () => {
  it.each([
    [
      "RFC 3339 with an offset",
      ["2026-10-03T18:20:00+02:00", "2026-10-03T18:20:10.5+02:00"],
      Date.UTC(2026, 9, 3, 16, 20),
      10.5,
    ],
    ["RFC 3339 in UTC", ["2026-10-03T18:20:00Z", "2026-10-03T18:21:00Z"], Date.UTC(2026, 9, 3, 18, 20), 60],
    ["a space and no zone: relative", ["2026-10-03 18:20:00", "2026-10-03 18:20:01"], null, 1],
    ["Unix seconds", ["1790000000", "1790000007"], 1_790_000_000_000, 7],
    ["Unix milliseconds", ["1790000000500", "1790000007750"], 1_790_000_000_500, 7.25],
  ])("%s", (_, [first, second], startMs, seconds) => {
    const read = readLog(`timestamp,PM2.5\n${first},5\n${second},4\n`);
    expect(read.startMs).toBe(startMs);
    expect([...read.series.tS]).toEqual([0, seconds]);
    expect(read.columns[0]!.why).toContain(startMs === null ? "no zone" : "stamped");
  });
});
