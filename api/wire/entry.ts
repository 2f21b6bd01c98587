import { z } from "@hono/zod-openapi";
import { AgainstStated } from "./against-stated.ts";
import { ByAerosol } from "./by-aerosol.ts";
import { Cost, Interest, orNull, RankedEntry, Serious } from "./leaderboard.ts";
import { positive, QuantityOut } from "./quantity.ts";
import { moneyText, quantityText } from "./query-text.ts";
import { BAND_NAMES } from "./series.ts";
import { SoundOut } from "./sound.ts";

export const EntryQuery = z.object({
  unit: z.string().max(40).default("m3/h"),
  electricity_price: moneyText.optional().openapi({ description: "Of a kilowatt-hour, as in 0.30 EUR." }),
  hours: z.coerce.number().positive().max(24).optional().openapi({ description: "It runs a day." }),
  filter_life: z.string().max(60).optional().openapi({
    description: "In h: hours of running; in d, mo or a: on the calendar. Else what the configuration states.",
  }),
});

export type EntryQuery = z.infer<typeof EntryQuery>;

/** How long a set of filters lasts, checked alone so that its unit still tells running from calendar time. */
export const filterLifeText = quantityText("time", positive);

const Range = z.object({ low: z.number(), high: z.number(), unit: z.string() });

const BasisOut = z
  .object({
    cadr: orNull(QuantityOut),
    prediction: orNull(Range).openapi({ description: "Where the next laboratory's figure is expected, 95 %." }),
    tau: z.number().nullable().openapi({ description: "SD between laboratories, relative." }),
    i2: z.number().nullable(),
    q: z.number().nullable(),
    spread: z.object({
      relative: z.number(),
      dof: z.number(),
      source: z.enum(["assumed", "learnt"]),
    }),
    left_out_change: z
      .object({ value: z.number(), unit: z.string() })
      .nullable()
      .openapi({ description: "Largest change of the CADR when one submitter is left out." }),
    trials: z.int(),
    rooms: z.int(),
    submitters: z.int(),
    unpaired: z.int(),
    serious: Serious,
    interest: Interest,
    aerosols: Interest,
    noise: orNull(SoundOut),
    noise_trials: z.int(),
    power: orNull(QuantityOut),
    power_trials: z.int(),
    cadr_per_watt: RankedEntry.shape.cadr_per_watt,
    cadr_per_cost: RankedEntry.shape.cadr_per_cost,
    noise_for_300: RankedEntry.shape.noise_for_300,
    members_sha256: z.string(),
    method_version: z.string(),
    as_of_seq: z.int(),
  })
  .openapi("EntryBasis");

export type BasisOut = z.infer<typeof BasisOut>;

export const ByRoom = z
  .object({
    room: z.object({ id: z.string(), url: z.string(), label: z.string().nullable() }),
    submitter: z.object({ id: z.string(), handle: z.string().nullable() }),
    cadr: QuantityOut,
    weight: z.number().openapi({ description: "Its share in the pooled CADR; those of all rooms add up to 1." }),
    trials: z.array(z.string()),
    paired: z.int().openapi({ description: "How many of its trials are paired." }),
    interest: Interest,
    corrected: z
      .object({ revision: z.int(), at: z.string(), reason: z.string().nullable() })
      .nullable()
      .openapi({ description: "Its volume was corrected: the newest correction, which this figure uses." }),
  })
  .openapi("ByRoom", {
    description:
      "What the trials of one room say together, as it enters the pool of basis `all`: no spread between laboratories in it.",
  });

export type ByRoom = z.infer<typeof ByRoom>;

const EntryTrial = z.looseObject({
  id: z.string(),
  url: z.string(),
  room: z.string(),
  state: z.string(),
  interest: z.string(),
  aerosol: z.string(),
  aerosol_stated: z.boolean().openapi({ description: "False where the record states none, which counts as `other`." }),
  performed_at: z.string(),
  submitter: z.object({ id: z.string(), handle: z.string().nullable() }),
  cadr: orNull(QuantityOut).openapi({
    description:
      "As the trial's stored result has it, with the room's volume of its day; null where this band has none.",
  }),
  paired: z.boolean().nullable(),
  serious: z.boolean().openapi({ description: "It has a serious finding in this band" }),
});

const Amount = z.object({ value: z.number(), currency: z.string() });

export const YearlyCost = z
  .object({
    electricity: Amount.extend({ kwh: z.number(), power_basis: z.enum(["measured", "stated_by_maker"]) }).nullable(),
    filters: Amount.extend({ sets: z.number() }).nullable(),
    total: Amount.nullable().openapi({ description: "Null unless both are known, in one currency." }),
  })
  .openapi("YearlyCost");

export const EntryOut = z
  .object({
    id: z.string(),
    url: z.string(),
    configuration: z.object({
      id: z.string(),
      title: z.string(),
      kind: z.enum(["user_built", "commercial"]),
      url: z.string(),
    }),
    setting: z.string(),
    band: z.enum(BAND_NAMES),
    invented: z.boolean(),
    bases: z.object({
      all: orNull(BasisOut),
      independent: orNull(BasisOut),
      paired: orNull(BasisOut),
      independent_paired: orNull(BasisOut),
    }),
    by_aerosol: z.array(ByAerosol),
    by_room: z.array(ByRoom).openapi({ description: "Those of one submitter together, the weightiest first." }),
    stated: z
      .object({
        noise: orNull(SoundOut),
        power: z.object({ value: z.number(), unit: z.string() }).nullable(),
        flow: z.object({ value: z.number(), unit: z.string() }).nullable(),
      })
      .openapi({ description: "What the maker or builder states: never part of a pooled figure." }),
    against_stated: AgainstStated,
    costs: z.object({ whole: Cost.nullable(), filter_set: Cost.nullable(), electricity_year: Cost.nullable() }),
    yearly_cost: YearlyCost.nullable().openapi({ description: "With electricity_price and hours in the query." }),
    trials: z.array(EntryTrial),
  })
  .openapi("Entry");

export type EntryOut = z.infer<typeof EntryOut>;
