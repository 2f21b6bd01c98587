import type { RefusalCode } from "./analysis-error.ts";
import type { BudgetPart } from "./clean-air-delivery-rate.ts";
import type { Estimate } from "./estimate.ts";
import type { MonteCarloInterval } from "./monte-carlo-interval.ts";
import type { Phase } from "./trial.ts";

/** What an analysis says: for each band or channel a clean air delivery rate or a refusal, and all that was done on the way. */
export interface Analysis {
  readonly methodVersion: string;
  readonly phases: readonly FoundPhase[];
  readonly results: readonly BandResult[];
  /** Natural loss of the bands that have no result: a log of natural decay alone still tells something. */
  readonly naturals: readonly BandNatural[];
  readonly refusals: readonly Refusal[];
  readonly dropped: readonly Dropped[];
}

/** A phase of a run that was used, in seconds after the run's first row sent. */
export interface FoundPhase {
  readonly run: number;
  readonly phase: Phase;
  readonly fromS: number;
  readonly toS: number;
  readonly why: string;
}

export interface Band {
  /** standard: 0.1-1.0, 0.5-3.0, 5-11, mass. channel: one channel as it is, named counter/id. */
  readonly kind: "standard" | "channel";
  readonly name: string;
  readonly fromUm: number | null;
  readonly toUm: number | null;
  /** Share of the band that the counter's bins cover on the log-size axis; null for mass and channels. */
  readonly coverage: number | null;
}

export interface BandResult {
  readonly band: Band;
  /** V·(k_total − k_natural) in m³/h, unclipped. */
  readonly cadrM3PerH: Estimate;
  /** k_total − k_natural in 1/h with its u and dof, volume left out: what rooms are pooled by. */
  readonly kDifferencePerH: Estimate;
  /** CADR over the stated flow, null where none is stated. */
  readonly singlePass: Estimate | null;
  /** The 95 % interval of CADR by draws of its inputs, where a large u asked for it. */
  readonly monteCarlo: MonteCarloInterval | null;
  readonly budget: readonly BudgetPart[];
  readonly total: TotalDecay;
  readonly natural: NaturalLoss;
  readonly paired: boolean;
  readonly findings: readonly Finding[];
}

export interface BandNatural {
  readonly band: Band;
  readonly kPerH: Estimate;
  readonly decays: readonly FittedDecay[];
}

export interface TotalDecay {
  readonly kPerH: Estimate;
  readonly window: DecayWindow;
  /** Fitted background B in the channel's unit, with its u. */
  readonly background: { readonly value: number; readonly u: number };
  /** The ordinary line through ln(C − the background as read), for comparison. */
  readonly logLinear: PlainLine | null;
  /** One a decay that entered: run, counter, its own k and window. */
  readonly decays: readonly FittedDecay[];
}

export interface FittedDecay {
  readonly run: number;
  readonly counter: string;
  readonly kPerH: Estimate;
  /** ln A at the window's start, and B, in the channel's unit: enough to draw the fit. */
  readonly amplitude: number;
  readonly background: { readonly value: number; readonly u: number };
  readonly window: DecayWindow;
  readonly logLinear: PlainLine | null;
}

export interface PlainLine {
  readonly kPerH: number;
  readonly uPerH: number;
  /** What was taken off the readings, in the channel's unit. */
  readonly background: number;
}

export interface DecayWindow {
  readonly fromS: number;
  readonly toS: number;
  /** Distinct readings inside. */
  readonly n: number;
  readonly why: string;
}

export interface NaturalLoss {
  readonly source: "measured" | "other_day" | "assumed";
  readonly kPerH: Estimate;
  readonly decays: readonly FittedDecay[];
}

/** The closed set of findings: what a reader should know about a result, with the value that raised it. */
export const FINDING_CODES = [
  "no-effect",
  "assumed-natural-loss",
  "natural-other-day",
  "conditions-differ",
  "background-inconsistent",
  "few-halvings",
  "short-log",
  "long-memory",
  "uneven-decay",
  "speed-change",
  "marks-contradicted",
  "strong-unit",
  "at-ceiling",
  "volume-estimated",
  "volume-unlikely",
  "window-fixed-by-hand",
  "counters-spread",
  "coagulation",
  "interval-checked",
  "lack-of-fit",
  "non-monotone",
  "still-being-fed",
  "repeats-differ",
  "mixing-not-forced",
  "undeclared-lag",
  "smoothing-unstated",
  "smoothing-long",
  "undeclared-dead-time",
  "cadr-above-flow",
] as const;

export type FindingCode = (typeof FINDING_CODES)[number];

export interface Finding {
  readonly code: FindingCode;
  readonly severity: "note" | "warning" | "serious";
  readonly message: string;
  readonly value: number | null;
  /** What it adds to u(CADR), m³/h. */
  readonly effectM3PerH: number | null;
}

export interface Refusal {
  /** Name of the band or channel, null where the whole run is refused. */
  readonly band: string | null;
  readonly run: number | null;
  readonly code: RefusalCode;
  readonly message: string;
}

export interface Dropped {
  readonly run: number;
  readonly channel: string | null;
  readonly reason: string;
  readonly count: number;
}
