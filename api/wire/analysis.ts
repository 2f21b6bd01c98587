import { z } from "@hono/zod-openapi";
import { FINDING_CODES } from "../../analysis/analysis.ts";
import { REFUSAL_CODES } from "../../analysis/analysis-error.ts";
import { QuantityOut } from "./quantity.ts";

const Window = z.object({ from: z.number(), to: z.number(), n: z.int(), why: z.string() });
const Level = z.object({ value: z.number(), u: z.number() });
const LogLinear = z
  .object({
    k: z.number(),
    u: z.number(),
    background: z.number().optional().openapi({ description: "What was taken off the readings before the logarithm." }),
  })
  .nullable();

const DecayOut = z
  .object({
    run: z.int(),
    counter: z.string(),
    k: QuantityOut,
    amplitude: z.number(),
    background: Level,
    window: Window,
    log_linear: LogLinear,
  })
  .openapi("Decay");

const Refusal = z
  .object({
    band: z.string().nullable(),
    run: z.int().nullable(),
    code: z.enum(Object.keys(REFUSAL_CODES) as [keyof typeof REFUSAL_CODES]),
    message: z.string(),
  })
  .openapi("Refusal");

const BandOut = z
  .object({
    kind: z.enum(["standard", "channel"]),
    name: z.string(),
    from_um: z.number().nullable(),
    to_um: z.number().nullable(),
    coverage: z.number().nullable(),
  })
  .openapi("Band");

const BandResultOut = z
  .object({
    band: BandOut,
    cadr: QuantityOut,
    air_changes: QuantityOut.openapi({ description: "Those the cleaner adds: CADR/V." }),
    single_pass: z.union([QuantityOut, z.null()]).openapi({
      description: "CADR over the flow the maker states for the setting; null where none is stated.",
    }),
    monte_carlo: z.object({ low: z.number(), high: z.number(), unit: z.string(), draws: z.int() }).nullable().openapi({
      description:
        "The 95 % interval of CADR by draws of its inputs, made where V or CADR/V is known to 20 % or worse.",
    }),
    expected_elsewhere: z
      .object({
        low: z.number(),
        high: z.number(),
        unit: z.string(),
        spread: z.object({ relative: z.number(), dof: z.number(), source: z.enum(["assumed", "learnt"]) }),
      })
      .nullable()
      .openapi({
        description: "Where another room and counter are expected; made on reading, never part of a stored result.",
      }),
    budget: z.array(z.object({ source: z.string(), u: z.number(), share: z.number() })),
    total: z.object({
      k: QuantityOut,
      half_life: z.union([QuantityOut, z.null()]),
      background: Level,
      window: Window,
      log_linear: LogLinear,
      counters: z.array(DecayOut),
    }),
    natural: z.object({
      source: z.enum(["measured", "other_day", "assumed"]),
      k: QuantityOut,
      half_life: z.union([QuantityOut, z.null()]),
      counters: z.array(DecayOut),
    }),
    paired: z.boolean(),
    findings: z.array(
      z.object({
        code: z.enum(FINDING_CODES),
        severity: z.enum(["note", "warning", "serious"]),
        message: z.string(),
        value: z.number().nullable().openapi({
          description: "What raised it: what that is, and its unit, stand with its code at /method#findings.",
        }),
        effect: z.object({ value: z.number(), unit: z.string() }).nullable(),
      }),
    ),
  })
  .openapi("BandResult");

const BandNaturalOut = z
  .object({ band: BandOut, k: QuantityOut, half_life: z.union([QuantityOut, z.null()]), counters: z.array(DecayOut) })
  .openapi("BandNatural", { description: "Natural loss of a band that has no result" });

/** What an analysis answers, and what is stored as a result. */
export const AnalysisOut = z
  .object({
    method_version: z.string(),
    volume: z.object({
      value: z.number(),
      unit: z.string(),
      u: z.number(),
      basis: z.enum(["stated", "measured_sides", "estimate"]).openapi({
        description: "Where u comes from: stated, 2 % assumed of measured sides, 5 % assumed of an estimate.",
      }),
    }),
    read: z.array(
      z.object({
        run: z.int(),
        rows: z.int(),
        columns: z.array(z.record(z.string(), z.unknown())).nullable(),
      }),
    ),
    phases: z.array(
      z.object({
        run: z.int(),
        phase: z.enum(["background", "natural", "total"]),
        from: z.number(),
        to: z.number(),
        why: z.string(),
      }),
    ),
    results: z.array(BandResultOut),
    naturals: z.array(BandNaturalOut),
    refusals: z.array(Refusal),
    dropped: z.array(z.object({ run: z.int(), channel: z.string().nullable(), reason: z.string(), count: z.int() })),
  })
  .openapi("Analysis");

export type AnalysisOut = z.infer<typeof AnalysisOut>;
export type BandResultOut = z.infer<typeof BandResultOut>;
export type DecayOut = z.infer<typeof DecayOut>;
