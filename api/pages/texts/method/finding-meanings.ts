import type { FindingCode } from "../../../../analysis/analysis.ts";

interface FindingMeaning {
  /** What raises it. */
  readonly raisedBy: string;
  /** What it adds to the uncertainty, null where it only informs or where another part of the budget holds it. */
  readonly adds: string | null;
}

/** When each finding is raised and what it does to the interval; the compiler asks for that of a new code. */
export const FINDING_MEANINGS: Record<FindingCode, FindingMeaning> = {
  "no-effect": {
    raisedBy: "The clean air delivery rate came out at 0 or below. It is kept as it is.",
    adds: null,
  },
  "assumed-natural-loss": {
    raisedBy:
      "No decay with the cleaner off could be used. The assumed loss and its wide uncertainty stand in the budget.",
    adds: null,
  },
  "natural-other-day": {
    raisedBy: "The decay with the cleaner off began more than twelve hours from the other.",
    adds: "15\u00a0% of the natural loss",
  },
  "conditions-differ": {
    raisedBy: "Mixing fan or ventilation were stated otherwise for one decay than for the other.",
    adds: "15\u00a0% of the natural loss, once where the day differs too",
  },
  "background-inconsistent": {
    raisedBy:
      "With the cleaner on the readings end below 0.8 of what the clean-air reading allows, by more than twice its uncertainty. The end of the decay is believed instead.",
    adds: null,
  },
  "few-halvings": { raisedBy: "A decay with the cleaner on holds under two halvings.", adds: null },
  "short-log": { raisedBy: "A decay holds under 12 readings.", adds: null },
  "long-memory": {
    raisedBy:
      "Errors last longer than a tenth of the decay, and than two minutes: there are too few of them to know their size. Of simulated half-hour decays so flagged 88\u00a0% of the intervals held the truth.",
    adds: null,
  },
  "uneven-decay": {
    raisedBy: "The two halves of a decay differ in rate by more than chance makes them in 6 of 100 sound tests.",
    adds: "the difference of the halves’ rates over √12",
  },
  "speed-change": {
    raisedBy:
      "The rate breaks within a decay with the cleaner on. What comes before the break is used, unless a window fixed by hand holds both.",
    adds: null,
  },
  "marks-contradicted": {
    raisedBy:
      "A mark and the readings disagree on when something happened. What lies between is used for neither decay.",
    adds: null,
  },
  "strong-unit": { raisedBy: "The rate with the cleaner on is over 30 per hour.", adds: null },
  "at-ceiling": { raisedBy: "A decay begins where the counter came off its highest reading.", adds: null },
  "volume-estimated": { raisedBy: "The volume is known to 5\u00a0% or worse.", adds: null },
  "volume-unlikely": { raisedBy: "The volume is under 1.5 m³ or over 3000 m³.", adds: null },
  "window-fixed-by-hand": {
    raisedBy: "The tester fixed a window. The rate of the automatic one stands beside it.",
    adds: null,
  },
  "counters-spread": {
    raisedBy:
      "Counters in one test differ by more than their uncertainties explain (95\u00a0%). The budget’s line on counters holds it.",
    adds: null,
  },
  coagulation: {
    raisedBy:
      "So many particles are counted that their sticking together moves the result by over 0.5\u00a0% (7 · 10⁻¹⁰ cm³/s, computed for 0.1 µm).",
    adds: "all of that shift, which is a lower bound",
  },
  "interval-checked": {
    raisedBy: "Draws of every input reach further than the usual formula, by over a twentieth of the half-width.",
    adds: "as much as makes the interval reach the draws",
  },
  "lack-of-fit": {
    raisedBy: "Readings scatter by over 15\u00a0%, or lean on each other even after their memory is taken out.",
    adds: "what the leaning makes the fit’s own uncertainty too small by",
  },
  "non-monotone": { raisedBy: "Within a decay the concentration climbs by over six standard deviations.", adds: null },
  "still-being-fed": {
    raisedBy: "With the cleaner off the concentration rises, by more than its 95\u00a0% uncertainty.",
    adds: "the whole of that rate",
  },
  "repeats-differ": {
    raisedBy:
      "Repeated decays differ by more than their uncertainties explain (95\u00a0%). The fits’ uncertainty holds it.",
    adds: null,
  },
  "mixing-not-forced": {
    raisedBy:
      "A decay was logged with the mixing fan off. In one comparison such results came out 3 to 16\u00a0% lower.",
    adds: null,
  },
  "undeclared-lag": {
    raisedBy: "The readings begin to fall as those of a counter that lags do, and no smoothing was stated.",
    adds: "the whole shift that they show",
  },
  "smoothing-unstated": {
    raisedBy:
      "A counter that weighs states no smoothing, and a minute of it, which is common (or a quarter of 1/k, if that is less), would move the rate by over 0.5\u00a0% of that with the cleaner on.",
    adds: "the whole shift that so much would make",
  },
  "smoothing-long": {
    raisedBy: "The stated smoothing takes over half of 1/k.",
    adds: "the shift that a lag so long makes",
  },
  "undeclared-dead-time": {
    raisedBy: "A decay begins over a fifth of the counter’s stated maximum, and its dead time is not stated.",
    adds: "the shift that a loss of 10\u00a0% at the stated maximum would make (ISO 21501-4, from memory)",
  },
  "cadr-above-flow": {
    raisedBy: "The whole interval lies above the flow that the maker states for the fan.",
    adds: null,
  },
};
