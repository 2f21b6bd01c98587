import { z } from "@hono/zod-openapi";
import { ConfigurationIn } from "./configuration.ts";
import { plainText } from "./plain-text.ts";
import { needsDistance, notNegative, positive, quantity } from "./quantity.ts";
import { ColumnsIn, RunTime, SeriesIn } from "./series.ts";

const Ventilation = z.enum(["off", "natural", "mechanical", "unknown"]);
const FanState = z.enum(["off", "on", "unknown"]);
const Instant = z.iso.datetime({ offset: true });

/** What moves the air of a room besides the cleaner. */
export const AirConditions = z.object({
  ventilation: Ventilation.default("unknown"),
  mixing_fan: FanState.default("unknown"),
});

const volumeFields = {
  volume: quantity("volume", positive).optional(),
  length: quantity("length", positive).optional(),
  width: quantity("length", positive).optional(),
  height: quantity("length", positive).optional(),
  displaced_volume: quantity("volume", notNegative).optional(),
};

export const RoomIn = z
  .strictObject({
    label: plainText(80).optional(),
    ...volumeFields,
    ...AirConditions.shape,
    temperature: quantity("temperature").optional(),
    relative_humidity: quantity("humidity", notNegative).optional(),
  })
  .superRefine(volumeOrSides)
  .openapi("Room");

/** What a room's volume is taken to be instead, and why. */
export const RoomRevisionIn = z
  .strictObject({ ...volumeFields, reason: plainText(1000) })
  .superRefine(volumeOrSides)
  .openapi("RoomRevision");

function volumeOrSides(room: Partial<Record<keyof typeof volumeFields, unknown>>, context: z.RefinementCtx): void {
  const sides = [room.length, room.width, room.height].filter((side) => side !== undefined).length;
  if (room.volume ? sides > 0 : sides !== 3) {
    context.addIssue({
      code: "custom",
      path: ["volume"],
      message: "Give either the volume, or length, width and height.",
    });
  }
  if (room.volume && room.displaced_volume) {
    context.addIssue({
      code: "custom",
      path: ["displaced_volume"],
      message: "A given volume is the air volume already.",
    });
  }
}

export const CounterIn = z
  .strictObject({
    id: plainText(40).default("c1"),
    principle: z.enum(["optical_counter", "photometer", "condensation_counter", "other"]).default("other"),
    model: plainText(80).optional(),
    position: plainText(120).optional(),
    sample_flow: quantity("flow", positive).optional(),
    dead_time: quantity("time", positive).optional(),
    max_concentration: quantity("number concentration", positive).optional(),
    // A time of 0 says that there is none, where leaving it out says that it is not known.
    smoothing: z.strictObject({ kind: z.enum(["lag", "moving_mean"]), time: quantity("time", notNegative) }).optional(),
  })
  .openapi("Counter");

export const RunIn = z
  .strictObject({
    role: z.enum(["background", "natural", "total", "full_log"]),
    counter: plainText(40).optional(),
    series: SeriesIn.optional(),
    file: plainText(80).optional(),
    columns: ColumnsIn.optional(),
    from_run: z.string().max(60).optional(),
    performed_at: Instant.optional(),
    mixing_fan: FanState.optional(),
    ventilation: Ventilation.optional(),
    from: RunTime.optional(),
    to: RunTime.optional(),
    marks: z
      .array(
        z.strictObject({ event: z.enum(["aerosol_end", "cleaner_on", "cleaner_off", "setting_changed"]), t: RunTime }),
      )
      .max(40)
      .default([]),
    windows: z
      .array(
        z.strictObject({
          phase: z.enum(["background", "natural", "total"]),
          n: z.int().min(0).max(40).optional(),
          from: RunTime,
          to: RunTime,
        }),
      )
      .max(40)
      .default([]),
  })
  .superRefine((run, context) => {
    if ([run.series, run.file, run.from_run].filter((source) => source !== undefined).length !== 1) {
      context.addIssue({
        code: "custom",
        path: ["series"],
        message: "A run needs exactly one of series, file or from_run.",
      });
    }
    if (run.from_run !== undefined && run.role !== "natural") {
      context.addIssue({
        code: "custom",
        path: ["from_run"],
        message: "Only a natural run may be taken from another trial.",
      });
    }
    for (const field of idleFields(run)) {
      const message =
        field === "columns" ? "Only a file has columns to name." : "A run of another trial brings its own.";
      context.addIssue({ code: "custom", path: [field], message });
    }
  })
  .openapi("Run");

/** What was sent beside the source of a run that has no use for it: ignored, it would read as obeyed. */
function idleFields(run: Readonly<Record<string, unknown>>): string[] {
  const ofAnother = ["columns", "from", "to", "performed_at", "mixing_fan", "ventilation", "marks", "windows"];
  const idle = run.from_run !== undefined ? ofAnother : run.file === undefined ? ["columns"] : [];
  return idle.filter((field) => {
    const value = run[field];
    return Array.isArray(value) ? value.length > 0 : value !== undefined;
  });
}

/** What an analysis needs: room, counters, runs. */
const analysed = {
  room: RoomIn,
  counters: z.array(CounterIn).min(1).max(16),
  runs: z.array(RunIn).min(1).max(32),
};

const NoiseIn = z
  .strictObject({
    quantity: z.enum(["L_pA", "L_WA"]),
    level: quantity("sound level"),
    background: quantity("sound level").optional(),
    distance: quantity("length", positive).optional(),
    meter: z.enum(["class_1", "class_2", "phone", "unknown", "stated_by_maker"]),
  })
  .superRefine(needsDistance);

const described = {
  performed_at: Instant,
  specimen: plainText(120).optional(),
  filter_state: z
    .strictObject({
      hours: z.number().nonnegative().optional(),
      condition: z.enum(["new", "used", "cleaned", "loaded"]).optional(),
    })
    .optional(),
  aerosol: z
    .strictObject({
      kind: z.enum(["oil_smoke", "wood_smoke", "incense", "salt", "test_dust", "shop_dust", "ambient", "other"]),
      note: plainText(500).optional(),
    })
    .optional(),
  noise: z.array(NoiseIn).max(10).optional(),
  power: quantity("power", notNegative).optional(),
  trials_made: z.int().min(1).max(10_000).optional(),
  note: plainText(4000).optional(),
  invented: z.boolean().default(false),
};

/** A trial to be stored. */
export const TrialIn = z
  .strictObject({
    configuration: z.union([z.string().max(40), ConfigurationIn]),
    setting: z.string().max(60).optional(),
    ...analysed,
    ...described,
    interest: z.enum(["independent", "lent_or_given", "paid", "maker_or_seller"]),
  })
  .openapi("Trial");

/** A trial to be analysed and forgotten: everything that only matters for storing may be left out. */
export const AnalysisIn = z
  .strictObject({
    ...analysed,
    counters: analysed.counters.optional(),
    configuration: z.union([z.string().max(40), ConfigurationIn]).optional(),
    setting: z.string().max(60).optional(),
    ...described,
    performed_at: Instant.optional(),
    interest: z.enum(["independent", "lent_or_given", "paid", "maker_or_seller"]).optional(),
  })
  .openapi("AnalysisRequest");

/** A stored trial to be analysed again, with other windows if wished; times are seconds after each run's first row. */
export const StoredAnalysisIn = z
  .strictObject({
    trial: z.string().max(40),
    windows: z
      .array(
        z.strictObject({
          run: z.int().min(0),
          phase: z.enum(["background", "natural", "total"]),
          n: z.int().min(0).max(40).default(0),
          from: z.number(),
          to: z.number(),
        }),
      )
      .max(40)
      .default([]),
  })
  .openapi("StoredAnalysisRequest");

export type StoredAnalysisIn = z.infer<typeof StoredAnalysisIn>;
export type TrialIn = z.infer<typeof TrialIn>;
export type AnalysisIn = z.infer<typeof AnalysisIn>;
export type RunIn = z.infer<typeof RunIn>;
export type RoomIn = z.infer<typeof RoomIn>;
export type CounterIn = z.infer<typeof CounterIn>;
