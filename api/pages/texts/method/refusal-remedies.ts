import type { RefusalCode } from "../../../../analysis/analysis-error.ts";

/** What to do where no rate can be told; the compiler asks for that of a new code. */
export const REFUSAL_REMEDIES: Record<RefusalCode, string> = {
  "no-peak": "Send the part of the log with the aerosol in it, or say by its role what the run is.",
  "no-switch-on": "Mark when the cleaner came on, or send the two decays as runs of their own.",
  "too-short": "Log faster or longer: nine different readings are needed, five from 5 µm up.",
  "less-than-one-halving": "Log until the reading is a quarter of what it began at.",
  "not-decaying":
    "Look at marks and windows: the aerosol must be in the room, and its source out, before the decay begins.",
  "no-decay-window": "Take back a window or mark, and see what the log finds by itself.",
  "not-converged": "Send the log with a question on it: readings like these should not come about.",
  singular: "Log longer, until the concentration has clearly fallen.",
  "no-total-decay": "Send a run with the cleaner on that has this channel.",
  "no-natural-loss": "Log a decay with the cleaner off.",
  "band-not-covered":
    "Nothing need be done: other bands and each channel are analysed. A counter with wider bins covers it.",
  "counters-disagree":
    "Give each run the id of a counter that is stated, and each counter a natural run, or none of them.",
};
