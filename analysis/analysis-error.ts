/** Why a run, a band or a fit gives no number: the closed set of refusals, each a promise not to guess. */
export const REFUSAL_CODES = {
  "no-peak": "the log holds no rise and fall of aerosol to analyse",
  "no-switch-on": "no moment can be told at which the cleaner began to work",
  "too-short": "too few distinct readings are left in the window",
  "less-than-one-halving":
    "the concentration does not even halve inside the window: log longer, or start from more aerosol",
  "not-decaying":
    "the concentration does not fall inside the window: check the marks, and that the aerosol was fed in before",
  "no-decay-window": "the marks, windows and phases leave no decay",
  "not-converged": "the fit found no minimum",
  singular: "the readings do not determine the parameters",
  "no-total-decay": "no decay with the cleaner on was found for this band",
  "no-natural-loss": "natural loss was neither measured nor may be assumed for this band",
  "band-not-covered": "the counter's bins cover less than half of the band",
  "counters-disagree": "the counters' runs cannot be matched",
} as const;

export type RefusalCode = keyof typeof REFUSAL_CODES;

/** A typed refusal. Thrown by everything in analysis/ that would otherwise have to return a guess or a NaN. */
export class AnalysisError extends Error {
  override readonly name = "AnalysisError";
  readonly code: RefusalCode;

  constructor(code: RefusalCode, message: string = REFUSAL_CODES[code]) {
    super(message);
    this.code = code;
  }
}
