interface Rule {
  /** What is told of a trial that it applies to: why it waits. */
  readonly words: string;
  /** When it applies. */
  readonly applies: string;
  readonly source: string;
}

/** Why a trial waits for a person before it counts. Codes and words stand in the log as they were. */
export const DOUBTS = {
  "volume-unlikely": {
    words: "hardly a room has the volume that was stated",
    applies: "The volume of the room is under 1.5 m³ or over 3000 m³, as where litres or feet are taken for metres.",
    source: "common practice, no source",
  },
  "cadr-above-flow": {
    words: "more air is said to be cleaned than the cleaner's maker states it to move",
    applies: "In some band the whole 95 % interval of the clean air delivery rate lies above the stated flow.",
    source: "no more air can be cleaned than passes; that the whole interval decides is common practice, no source",
  },
  "equal-readings": {
    words: "another submitter sent the same readings before",
    applies: "A log has, number by number, the readings of one that another tester sent first.",
    source: "common practice, no source",
  },
  "same-scatter": {
    words: "its readings scatter as those of another submitter's test, times a factor or plus an offset",
    applies:
      "From reading to reading a log bends as one that another tester sent first: second differences of 30 readings or more correlate to over 0.999. A factor or an offset changes nothing of that; a log of which a part was cut off is mostly found, one rounded anew often not. Two counters in one room do not come near it.",
    source: "common practice, no source; of 200 simulated logs, and of the real ones tried, no two were taken for one",
  },
} as const satisfies Record<string, Rule>;

export type DoubtCode = keyof typeof DOUBTS;

export interface Doubt {
  readonly code: DoubtCode;
  /** The trial whose readings it has. */
  readonly other?: string;
}

/** A doubt as the log keeps it. */
export function doubtReason({ code, other }: Doubt): string {
  return `${code}: ${DOUBTS[code].words}${other === undefined ? "" : ` (${other})`}`;
}

/** The doubt behind a reason in the log, with the trial that it names; null where a person wrote it. */
export function readDoubt(reason: string | null): (Doubt & { readonly message: string }) | null {
  const code = reason?.split(":", 1)[0] as DoubtCode | undefined;
  if (!reason || !code || !Object.hasOwn(DOUBTS, code)) return null;
  const other = / \((trl-[0-9A-Z]+)\)$/.exec(reason)?.[1];
  return { code, message: reason.slice(code.length + 2), ...(other ? { other } : {}) };
}
