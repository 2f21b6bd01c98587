import type { FindingCode } from "../../../analysis/analysis.ts";
import { parseUnit } from "../../../analysis/units.ts";
import { figures, two, unitWords } from "../figures.ts";
import type { FlowUnit } from "../reader.ts";

/** What the value of a finding is a value of. */
type Kind = "rate" | "share" | "flow" | "hours" | "seconds" | "readings" | "halvings" | "level" | "volume" | "times";

interface FindingWords {
  /** Its name, which a budget uses too. */
  readonly name: string;
  /** What its value is, to be followed by it. */
  readonly value: readonly [what: string, kind: Kind];
  /** One thing to do in the next test. */
  readonly next: string;
}

/** Every finding in words: the compiler asks for those of a new code. */
export const FINDING_WORDS: Record<FindingCode, FindingWords> = {
  "no-effect": {
    name: "No effect shown",
    value: ["difference of the two decays", "flow"],
    next: "Watch a strip of paper at the outlet before the decay with the cleaner on, so that it surely ran.",
  },
  "assumed-natural-loss": {
    name: "Natural loss assumed",
    value: ["taken off", "rate"],
    next: "Let the air decay for half an hour with the cleaner off first, then switch it on in the same log.",
  },
  "natural-other-day": {
    name: "Natural loss of another day",
    value: ["apart", "hours"],
    next: "Feed the aerosol twice on one day: once for each decay.",
  },
  "conditions-differ": {
    name: "Conditions differed between the decays",
    value: ["natural loss", "rate"],
    next: "Set doors, ventilation and mixing fan once, before the first decay, and touch nothing until the last is logged.",
  },
  "background-inconsistent": {
    name: "Clean-air reading and decay disagree",
    value: ["level they fall to", "level"],
    next: "Log five minutes of clean air just before the aerosol, and once more after the last decay.",
  },
  "few-halvings": {
    name: "Few halvings",
    value: ["seen", "halvings"],
    next: "Let the cleaner run until the reading is a tenth of what it began at.",
  },
  "short-log": {
    name: "Few readings",
    value: ["in the shortest decay", "readings"],
    next: "Log a reading every ten seconds or faster.",
  },
  "long-memory": {
    name: "Readings swing in slow waves",
    value: ["length of a wave over the decay", "share"],
    next: "Move the counter out of the cleaner's stream, run a mixing fan, and log twice as long.",
  },
  "uneven-decay": {
    name: "Decay changes its pace",
    value: ["difference of the halves, over the rate", "share"],
    next: "Run a mixing fan from the aerosol onwards, and leave the room closed until the log ends.",
  },
  "speed-change": {
    name: "Cleaner changed its speed",
    value: ["rate after it", "rate"],
    next: "Lock the setting: no automatic mode, no timer, no night mode.",
  },
  "marks-contradicted": {
    name: "Mark and readings disagree",
    value: ["from the mark to what the readings show", "seconds"],
    next: "Write down times from the counter's own display.",
  },
  "strong-unit": {
    name: "Strong for this room",
    value: ["fitted total decay, rounded", "rate"],
    next: "Test at a lower setting too, or in a room of twice the volume.",
  },
  "at-ceiling": {
    name: "Counter was at its highest reading",
    value: ["level where the decay begins", "level"],
    next: "Feed for half the time.",
  },
  "volume-estimated": {
    name: "Room volume roughly known",
    value: ["standard uncertainty over the volume", "share"],
    next: "Tape length, width and height, and take off cupboards and what else holds no air.",
  },
  "volume-unlikely": {
    name: "Room volume hardly possible",
    value: ["volume", "volume"],
    next: "Give the sides of the room with their unit, so that the volume is worked out here.",
  },
  "window-fixed-by-hand": {
    name: "Window fixed by hand",
    value: ["rate of the automatic window", "rate"],
    next: "Mark when the aerosol ended and when the cleaner came on, and send no window.",
  },
  "counters-spread": {
    name: "Counters differ",
    value: ["standard deviation between them", "flow"],
    next: "Let the counters stand side by side for an hour before the test, and note what each reads.",
  },
  coagulation: {
    name: "Particles stick together",
    value: ["quickens the rates by at least", "rate"],
    next: "Feed less: begin the decays below 10\u00a0000 particles per cm³.",
  },
  "interval-checked": {
    name: "Interval widened to the draws",
    value: ["by, over its half-width", "share"],
    next: "Measure what stands first in the budget better: it decides the interval.",
  },
  "lack-of-fit": {
    name: "Readings scatter unlike a counter's",
    value: ["standard deviation of a reading", "share"],
    next: "Keep people, doors and heating out of the room while it is logged, and repeat the decay.",
  },
  "non-monotone": {
    name: "Concentration climbs within a decay",
    value: ["climb over where it stood", "share"],
    next: "Leave the room while it is logged, and carry the counter in beforehand.",
  },
  "still-being-fed": {
    name: "Aerosol still came in",
    value: ["natural decay", "rate"],
    next: "Put the source out and carry it away, wait ten minutes with the mixing fan on, then begin the natural decay.",
  },
  "repeats-differ": {
    name: "Repeats differ",
    value: ["standard deviation between them", "flow"],
    next: "Repeat once more with nothing changed: three decays tell which one stands apart.",
  },
  "mixing-not-forced": {
    name: "No mixing fan",
    value: ["decays without one", "share"],
    next: "Place a small fan that blows at the ceiling, and run it in every decay.",
  },
  "undeclared-lag": {
    name: "Counter or mixing lags",
    value: ["shifts the rate by", "rate"],
    next: "Look up the counter's averaging time and state it with the test.",
  },
  "smoothing-unstated": {
    name: "Smoothing not stated",
    value: ["a minute of it would shift the rate by", "rate"],
    next: "State the averaging time that the counter's menu shows, or 0 s where it has none.",
  },
  "smoothing-long": {
    name: "Long smoothing",
    value: ["its time over the decay's", "share"],
    next: "Set the counter's averaging to its shortest.",
  },
  "undeclared-dead-time": {
    name: "Counter near its limit",
    value: ["start, of the stated limit", "share"],
    next: "Begin the decay below a fifth of the counter's stated limit.",
  },
  "cadr-above-flow": {
    name: "More clean air than the flow allows",
    value: ["clean air over flow", "times"],
    next: "Measure the flow at this setting, or give the maker's figure for this setting alone.",
  },
};

/** What the value of a finding is and what it is in, as data hold it. */
export function valueWords(code: FindingCode): string {
  const [what, kind] = FINDING_WORDS[code].value;
  return `“${what}”, ${UNITS[kind]}`;
}

const UNITS: Record<Kind, string> = {
  rate: "per hour",
  share: "as a share of 1",
  flow: "in m³/h",
  hours: "in hours",
  seconds: "in seconds, below 0 where earlier",
  readings: "as a number",
  halvings: "as a number",
  level: "in the unit of the channel",
  volume: "in m³",
  times: "as a ratio",
};

/** The value that raised a finding, with its unit: no measured result, so without an interval. */
export function findingValue(code: FindingCode, value: number, at: { flow: FlowUnit; level: string }): string {
  const [what, kind] = FINDING_WORDS[code].value;
  return `${what}: ${KINDS[kind](value, at)}`;
}

const KINDS: Record<Kind, (value: number, at: { flow: FlowUnit; level: string }) => string> = {
  rate: (x) => `${figures(x, Math.abs(x) / 10).value} per hour`, // three digits, to be found again among the rates
  share: (x) => `${two(100 * x)}\u00a0%`,
  flow: (x, { flow }) => flowWords(x, flow),
  hours: (x) => `${two(x)} h`,
  seconds: (x) => `${Math.round(Math.abs(x))} s ${x < 0 ? "earlier" : "later"}`,
  readings: (x) => `${x} readings`,
  halvings: (x) => `${two(x)} halvings`,
  level: (x, { level }) => `${two(x)} ${level}`,
  volume: (x) => `${two(x)} m³`,
  times: (x) => `${two(x)} times`,
};

/** A flow held in m³/h, two digits, in the reader's unit. */
export function flowWords(m3PerH: number, flow: FlowUnit): string {
  return `${two(parseUnit(flow).fromBase(m3PerH))} ${unitWords(flow)}`;
}
