import type { BandResultOut } from "../../wire/analysis.ts";
import { BAND_WORDS } from "../figures.ts";

type Words = Readonly<Record<string, string>>;

export const ROLE_WORDS: Words = {
  background: "clean air before the aerosol",
  natural: "natural decay, cleaner off",
  total: "total decay, cleaner on",
  full_log: "one log of everything",
};

export const NATURAL_WORDS: Record<BandResultOut["natural"]["source"], string> = {
  measured: "measured",
  other_day: "measured on another day",
  assumed: "assumed, not measured",
};

export const VENTILATION_WORDS: Words = {
  off: "off, windows and doors shut",
  natural: "windows or doors open",
  mechanical: "mechanical, running",
  unknown: "not stated",
};

export const FAN_WORDS: Words = { on: "running", off: "off", unknown: "not stated" };

export const PRINCIPLE_WORDS: Words = {
  optical_counter: "optical particle counter",
  photometer: "photometer, which weighs by scattered light",
  condensation_counter: "condensation particle counter",
  other: "principle not stated",
};

export const BASIS_WORDS: Words = {
  stated: "its uncertainty as the tester stated it",
  measured_sides:
    "from its sides; where no uncertainty is stated, a standard one of 2\u00a0% is taken (common practice)",
  estimate: "no uncertainty stated: a standard one of 5\u00a0% is taken (common practice)",
};

export const METER_WORDS: Words = {
  class_1: "class 1 sound level meter",
  class_2: "class 2 sound level meter",
  phone: "phone",
  unknown: "meter not stated",
  stated_by_maker: "figure of the maker",
};

export const NOT_RATED_WORDS: Words = {
  "near-background": "the background was nearly as loud: nothing can be told",
  "no-distance": "the distance is not stated",
  implausible: "the figures are beyond what is plausible",
};

export const STATE_WORDS: Words = {
  listed: "It counts in pooled figures.",
  pending: "It waits to be checked and does not count yet.",
  questioned: "It counts, but it was questioned.",
  withdrawn: "It was withdrawn and does not count.",
};

export const EVENT_WORDS: Words = {
  "trial-stored": "stored",
  "trial-doubted": "doubted",
  "trial-withdrawn": "withdrawn",
  "trial-held": "held until checked",
  "trial-listed": "listed",
  "trial-amended": "amended",
  "trial-questioned": "questioned",
  "question-answered": "a question answered",
  "method-applied": "analysed again",
};

/** What an amendment may change. */
export const FIELD_WORDS: Words = {
  aerosol: "what is said of the aerosol",
  counters: "what is said of the counters",
  filter_state: "the filter's state",
  interest: "who paid",
  noise: "the noise readings",
  note: "the note",
  power: "the power",
  room: "the conditions in the room",
  runs: "marks, windows or conditions of the logs",
  specimen: "the specimen",
  trials_made: "how many tests were made",
};

/** Who does what is in a record's history, besides its tester. */
export const ACTOR_WORDS: Words = {
  operator: "the operator",
  rule: "a stated rule",
  reader: "a reader",
  registry: "the registry",
};

/** A band in few words: a standard one by its sizes, a channel by its own name. */
export function bandWords({ kind, name }: Pick<BandResultOut["band"], "kind" | "name">): string {
  return kind === "standard" ? (BAND_WORDS[name] ?? name) : name.slice(name.indexOf("/") + 1);
}
