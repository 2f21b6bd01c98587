import { z } from "@hono/zod-openapi";
import { AnalysisOut } from "./analysis.ts";
import { Interest } from "./leaderboard.ts";
import { QuantityOut } from "./quantity.ts";

const Band = AnalysisOut.shape.results.element.shape;
const Range = z.object({ low: z.number(), high: z.number(), unit: z.string() });

const Common = {
  path: z.string().openapi({ description: "Of the page; the JSON is under /v1. Names this result for good." }),
  band: z.string(),
  invented: z.boolean(),
  configuration: z
    .object({ id: z.string(), kind: z.string(), title: z.string(), revision: z.int() })
    .openapi({ description: "Title and revision as they stood when the figure was made." }),
  setting: z.string(),
  cadr: QuantityOut.openapi({ description: "In m3/h." }),
  cadr_cfm: QuantityOut.openapi({ description: "The same in [cft_i]/min." }),
  method_version: z.string(),
  stored_at: z.string(),
  licence: z.literal("CC0-1.0"),
};

export const PinnedTrial = z
  .object({
    kind: z.literal("trial"),
    trial: z.string(),
    revision: z.int(),
    ...Common,
    interval_of: z.literal("one_trial").openapi({ description: "In this room, by these counters, on that day." }),
    aerosol: z.string(),
    interest: z.string(),
    submitter: z.string().openapi({ description: "The id; the handle is a personal word, which may be erased." }),
    monte_carlo: Band.monte_carlo,
    air_changes: Band.air_changes,
    budget: Band.budget,
    total: z.object({ k: QuantityOut }),
    natural: z.object({ source: Band.natural.shape.source, k: QuantityOut }),
    paired: z.boolean(),
    findings: Band.findings,
    room: z.object({ id: z.string(), revision: z.int(), volume: AnalysisOut.shape.volume }),
    counters: z.int(),
    performed_at: z.string(),
    analysed_at: z.string(),
    record_sha256: z.string().openapi({ description: "Of the trial's revision as it is stored." }),
    result_sha256: z.string().openapi({ description: "Of the whole result, all bands, as it is stored." }),
  })
  .openapi("PinnedTrial");

export const PinnedEntry = z
  .object({
    kind: z.literal("entry"),
    entry: z.string(),
    basis: z.enum(["all", "independent", "paired", "independent_paired"]),
    seq: z.int().openapi({ description: "The event that made the figure." }),
    ...Common,
    interval_of: z.literal("between_laboratories"),
    aerosols: Interest.openapi({ description: "Trials by kind of aerosol." }),
    interest: Interest.openapi({ description: "Trials by who paid." }),
    prediction: Range.nullable().openapi({ description: "Where another room and counter are expected, 95 %." }),
    tau: z.number().nullable(),
    i2: z.number().nullable(),
    q: z.number().nullable(),
    spread: z.object({ relative: z.number(), dof: z.number(), source: z.enum(["assumed", "learnt"]) }),
    left_out_change: z.object({ value: z.number(), unit: z.string() }).nullable(),
    trials: z.int(),
    rooms: z.int(),
    submitters: z.int(),
    unpaired: z.int(),
    serious: z.int(),
    members: z.array(
      z.object({
        trial: z.string(),
        revision: z.int(),
        method_version: z.string(),
        room: z.string(),
        room_revision: z.int(),
      }),
    ),
    members_sha256: z.string().openapi({
      description:
        "Of the JSON array of members, each as trial/revision/method version/room revision, in order: as it was stored with the figure.",
    }),
  })
  .openapi("PinnedEntry");

const Withdrawal = z.object({ at: z.string(), reason: z.string().nullable() });

/** What a pinned address answers: `pinned` never changes, and beside it what became of the record. */
export const PinnedResult = z
  .object({
    pinned: z.discriminatedUnion("kind", [PinnedTrial, PinnedEntry]),
    sha256: z.string().openapi({ description: "Of the canonical JSON (RFC 8785) of `pinned`." }),
    url: z.string(),
    page: z.string(),
    withdrawn: Withdrawal.nullable().openapi({
      description: "When and why the trial was withdrawn; of an entry, when the last of its members was.",
    }),
    withdrawn_members: z
      .array(Withdrawal.extend({ trial: z.string() }))
      .openapi({ description: "Members of an entry's figure that were withdrawn since." }),
  })
  .openapi("PinnedResult");

export type PinnedTrial = z.infer<typeof PinnedTrial>;
export type PinnedEntry = z.infer<typeof PinnedEntry>;

/** A trial of a figure of which a later revision says otherwise who paid or what was in the air. */
export interface Correction {
  readonly trial: string;
  readonly revision: number;
  readonly at: string;
  readonly reason: string | null;
  readonly interest: { readonly from: string; readonly to: string };
  readonly aerosol: { readonly from: string; readonly to: string };
}

/**
 * The answer with what was corrected since: pages, citations and pictures say it. The JSON stays the same to the byte, and
 * its Link header leads to the revisions.
 */
export type PinnedResult = z.infer<typeof PinnedResult> & { readonly corrections: readonly Correction[] };
