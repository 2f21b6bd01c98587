import { describe, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { DRESSES, toCsv } from "../../../analysis/simulate/to-csv.ts";
import { fromZod } from "../../../api/failure.ts";
import { fieldOfPointer } from "../../../api/pages/submit/field-of-pointer.ts";
import { SLOTS, type Slot } from "../../../api/pages/submit/form-fields.ts";
import { trialFromForm } from "../../../api/pages/submit/trial-from-form.ts";
import { prepareTrial } from "../../../api/trial-input.ts";
import { AnalysisIn, TrialIn } from "../../../api/wire/trial.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { randomForm } from "./random-form.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const logs = (text: string, slot: Slot = "full_log") => new Map([[slot, { name: "log.csv", bytes: bytes(text) }]]);
const form = (fields: Record<string, string>) => new Map(Object.entries(fields));
const made = (fields: Record<string, string>, text = CSV) => trialFromForm(form(fields), logs(text));
const { series } = sampleLog(21);
const CSV = toCsv(series);

describe("a trial of a form", () => {
  test("what is blank is left out, and what is filled stands as it was written", () => {
    const { trial, files, complaints } = made({ "room.volume": " 30,5 ", note: "  ", "room.label": "" });
    expect(complaints).toEqual([]);
    expect(trial).toEqual({
      room: { volume: { value: 30.5, unit: "m3" } },
      counters: [{ id: "c1" }],
      runs: [{ role: "full_log", counter: "c1", file: "full_log" }],
    });
    expect(files.get("full_log")!.bytes).toEqual(bytes(CSV));
  });

  test("feet, and how well a side is known: half of ± is the standard uncertainty", () => {
    const room = { "room.unit": "ft", "room.length": "16", "room.width": "12", "room.height": "8" };
    const { trial } = made({
      ...room,
      "room.sides_within": "0.2",
      "room.displaced": "50",
      "room.temperature": "68",
      "room.temperature_unit": "[degF]",
    });
    expect(trial.room).toEqual({
      length: { value: 16, unit: "[ft_i]", u: 0.1 },
      width: { value: 12, unit: "[ft_i]", u: 0.1 },
      height: { value: 8, unit: "[ft_i]", u: 0.1 },
      displaced_volume: { value: 50, unit: "[cft_i]" },
      temperature: { value: 68, unit: "[degF]" },
    });
  });

  test.each([
    ["seconds", DRESSES.comma],
    ["a decimal comma", DRESSES.semicolon],
    ["stamps", DRESSES.stamped],
    ["stamps, newest first", { ...DRESSES.stamped, newestFirst: true }],
  ])("minutes after the first row reach the analysis as such: %s", async (_, dress) => {
    const fields = { "room.volume": "30", "full_log.mark.aerosol_end": "7", "full_log.mark.cleaner_on": "32,25" };
    const { trial, files, complaints } = made(fields, toCsv(series, dress));
    expect(complaints).toEqual([]);
    const { input } = await prepareTrial(AnalysisIn.parse(trial), files, () => Promise.reject(new Error("no link")));
    expect(input.runs[0]!.marks).toEqual([
      { event: "aerosol_end", tS: 420 },
      { event: "cleaner_on", tS: 1935 },
    ]);
  });

  test("a mark beyond the log, and text where a number belongs, are told beside their fields and left out", () => {
    const { trial, complaints } = made({
      "room.volume": "thirty",
      "full_log.mark.cleaner_on": "-1",
      power: "1e3",
      "full_log.mark.cleaner_off": "500",
    });
    expect(complaints.map(({ field }) => field).sort()).toEqual([
      "full_log.mark.cleaner_off",
      "full_log.mark.cleaner_on",
      "power",
      "room.volume",
    ]);
    expect(trial.power).toBeUndefined();
    expect(trial.runs).toEqual([{ role: "full_log", counter: "c1", file: "full_log" }]);
  });

  test("columns are sent where they were corrected, and left to the reader of logs where not", () => {
    const shown = {
      "full_log.columns.0.name": "time",
      "full_log.columns.0.use": "time",
      "full_log.columns.1.name": "n1",
    };
    const size = {
      "full_log.columns.1.from": "0.3",
      "full_log.columns.1.to": "1",
      "full_log.columns.1.cumulative": "none",
    };
    const columns = (fields: Record<string, string>, text?: string) =>
      (made({ "room.volume": "30", ...shown, ...fields }, text).trial.runs as { columns?: unknown }[])[0]!.columns;
    expect(columns({ "full_log.columns.1.use": "number", ...size })).toEqual({
      channels: [{ column: "n1", quantity: "number", from_um: 0.3, to_um: 1, cumulative: "none" }],
    });
    expect(columns({ "full_log.columns.1.use": "raw" })).toBeUndefined();
    expect(columns({ "full_log.columns.1.use": "raw", "full_log.columns.0.unit": "min" })).toEqual({
      t: { column: "time", unit: "min" },
      channels: [{ column: "n1", quantity: "raw", from_um: null, to_um: null, cumulative: "none" }],
    });
    // Said of another log's columns.
    expect(columns({ "full_log.columns.1.use": "number", ...size }, CSV.replace("n1", "n2"))).toBeUndefined();
  });

  test("separate logs, a natural decay of an earlier test, no log at all", () => {
    const file = { name: "log.csv", bytes: bytes(CSV) };
    const both = trialFromForm(
      form({ "room.volume": "30" }),
      new Map([["total", file] as const, ["background", file] as const]),
    );
    expect((both.trial.runs as { role: string }[]).map(({ role }) => role)).toEqual(["background", "total"]);
    const linked = trialFromForm(form({ "room.volume": "30", from_run: "trl-1/runs/0" }), new Map([["total", file]]));
    expect(linked.trial.runs).toContainEqual({ role: "natural", counter: "c1", from_run: "trl-1/runs/0" });
    expect(trialFromForm(new Map(), new Map()).complaints.map(({ field }) => field)).toEqual([
      "full_log.file",
      "room.volume",
    ]);
  });

  test.each([
    ["#/room/volume/value", "room.volume"],
    ["#/room/length/u", "room.length"],
    ["#/room/displaced_volume", "room.displaced"],
    ["#/counters/0/smoothing/time/value", "counter.smoothing_time"],
    ["#/configuration/parts/1/description", "described.parts.2.description"],
    ["#/configuration/parts/1/filter_grade/grade", "described.parts.2.grade"],
    ["#/configuration/costs/0/money/currency", "described.currency"],
    ["#/configuration/settings/0/stated_flow/value", "described.setting_flow"],
    ["#/configuration/maker", "described.maker"],
    ["#/setting", "described.setting"],
    ["#/noise/0/distance", "noise.1.distance"],
    ["#/runs/0/marks/1/t", "full_log.mark.cleaner_off"],
    ["#/runs/0/columns/channels/0/to_um", "full_log.columns.1.to"],
    ["#/runs/0/columns/t/column", "full_log.columns.0.use"],
    ["#/runs/0/file", "full_log.file"],
    ["#/runs/1/from_run", "from_run"],
    ["#/filter_state/hours", "filter.hours"],
    ["#/aerosol/note", "aerosol.note"],
    ["#/performed_at", "performed_at"],
    ["#/nothing", null],
  ])("%s is about %s", (pointer, field) => {
    const fields = form({
      "room.volume": "30",
      configuration: "described",
      "described.parts.0.description": "fan",
      "described.parts.2.description": "panel",
      "noise.1.level": "44",
      "full_log.mark.aerosol_end": "7",
      "full_log.mark.cleaner_off": "50",
      "full_log.columns.0.name": "time",
      "full_log.columns.0.use": "time",
      "full_log.columns.1.name": "n1",
      "full_log.columns.1.use": "number",
      from_run: "trl-1/runs/0",
    });
    expect(fieldOfPointer(pointer, fields, trialFromForm(fields, logs(CSV)).trial)).toBe(field);
  });

  test("300 forms filled at random: nothing is thrown, and what a schema refuses has a field", () => {
    const unplaced = new Set<string>();
    let [passed, refused] = [0, 0];
    for (let seed = 1; seed <= 300; seed++) {
      const random = createRandom(seed);
      const fields = randomForm(random);
      const slots = SLOTS.filter((slot) => random.uniform() < (slot === "full_log" ? 0.7 : 0.15));
      const chosen = new Map(slots.map((slot) => [slot, { name: "log.csv", bytes: bytes(LOGS[seed % LOGS.length]!) }]));
      const { trial } = trialFromForm(fields, chosen);
      expect(JSON.parse(JSON.stringify(trial)), `seed ${seed}`).toEqual(trial); // what goes over the wire is all there is
      const parsed = TrialIn.safeParse(trial);
      if (parsed.success) passed++;
      else refused++;
      for (const { pointer } of parsed.success ? [] : fromZod(parsed.error).errors) {
        if (fieldOfPointer(pointer, fields, trial) === null) unplaced.add(pointer);
      }
    }
    expect([...unplaced]).toEqual([]);
    expect(Math.min(passed, refused)).toBeGreaterThan(20);
  });
});

const LOGS = [
  CSV,
  toCsv(series, DRESSES.stamped),
  "",
  "time\n",
  "a,b\n1,2\n",
  "time,n\n03/04/2026 10:00,1\n03/04/2026 10:01,2\n",
  "\0\0\0",
];
