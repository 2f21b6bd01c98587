import type { Estimate } from "../estimate.ts";

/** What one trial brings to the pooled figure of its configuration, setting and band. */
export interface Member {
  readonly trial: string;
  readonly submitter: string;
  /** A room belongs to one submitter. */
  readonly room: string;
  /** The room's, the same for all of its trials: one error shared. */
  readonly volumeM3: Estimate;
  readonly kDifferencePerH: Estimate;
  /** The natural loss inside the difference; null where nothing is known of it. */
  readonly natural: Natural | null;
}

export interface Natural {
  readonly perH: number;
  readonly u: number;
  /** The run it was measured in, which other trials may share; null where it is assumed, one guess for the whole room. */
  readonly run: string | null;
}
