import type { Channel, MarkEvent } from "../../../analysis/trial.ts";
import type { AnalysisOut, DecayOut } from "../../wire/analysis.ts";

/** What a decay and its residuals are drawn from. */
export interface DecayDrawing {
  /** Unique in its page. */
  readonly id: string;
  /** Seconds after the run's first row, one a reading; one that is not finite is not drawn. */
  readonly tS: Float64Array;
  readonly channel: Pick<Channel, "id" | "unit" | "values">;
  readonly phases: readonly Pick<AnalysisOut["phases"][number], "phase" | "from" | "to">[];
  readonly natural: readonly DecayOut[];
  readonly total: readonly DecayOut[];
  readonly marks?: readonly { readonly event: MarkEvent; readonly tS: number }[];
  /** Indices of the readings that enter no fit because they were cleaned away. */
  readonly leftOut?: readonly number[];
}

/** The fits of a drawing with the phase that each is of. */
export function fitsOf({ natural, total }: Pick<DecayDrawing, "natural" | "total">) {
  return [
    ...natural.map((decay) => ({ phase: "natural" as const, decay })),
    ...total.map((decay) => ({ phase: "total" as const, decay })),
  ];
}
