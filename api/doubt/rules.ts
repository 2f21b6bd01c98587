/** Why a trial waits for a person before it counts. Its codes are quoted in the log; their words are for readers. */
export const DOUBTS = {
  "volume-unlikely": "hardly a room has the volume that was stated",
  "cadr-above-flow": "more air is said to be cleaned than the cleaner's maker states it to move",
  "equal-readings": "another submitter sent the same readings before",
  "same-scatter": "its readings scatter as those of another submitter's test, times a factor or plus an offset",
} as const;

export type DoubtCode = keyof typeof DOUBTS;

export interface Doubt {
  readonly code: DoubtCode;
  /** The trial whose readings it has. */
  readonly other?: string;
}

/** A doubt as the log keeps it. */
export function doubtReason({ code, other }: Doubt): string {
  return `${code}: ${DOUBTS[code]}${other === undefined ? "" : ` (${other})`}`;
}

/** The doubt behind a reason in the log; null where a person wrote it. */
export function readDoubt(reason: string | null): { code: DoubtCode; message: string } | null {
  const code = reason?.split(":", 1)[0] as DoubtCode | undefined;
  if (!reason || !code || !Object.hasOwn(DOUBTS, code)) return null;
  return { code, message: reason.slice(code.length + 2) };
}
