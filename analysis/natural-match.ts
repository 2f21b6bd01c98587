import type { BandDecay } from "./counter-decays.ts";
import type { Run } from "./trial.ts";

/** The natural decays that belong to a counter's total decays, and how well. */
export interface NaturalMatch {
  readonly naturals: readonly BandDecay[];
  readonly source: "measured" | "other_day";
  /** Same counter, mixing fan and ventilation, starts at most twelve hours apart. */
  readonly paired: boolean;
  readonly sameConditions: boolean;
}

const TWELVE_HOURS_MS = 12 * 3600 * 1000;

/**
 * Natural decays under the conditions of the totals and within twelve hours; else those of the same day under other
 * conditions; else those of another day. Null where there is none. Runs of unstated time belong to the same occasion.
 */
export function matchNatural(totals: readonly BandDecay[], naturals: readonly BandDecay[]): NaturalMatch | null {
  if (naturals.length === 0) return null;
  const sameDay = naturals.filter((n) => totals.some((t) => near(n.run, t.run)));
  const alike = (n: BandDecay) => totals.every((t) => sameConditions(n.run, t.run));
  const paired = sameDay.filter(alike);
  if (paired.length > 0) return { naturals: paired, source: "measured", paired: true, sameConditions: true };
  if (sameDay.length > 0) return { naturals: sameDay, source: "measured", paired: false, sameConditions: false };
  const otherDay = naturals.filter(alike);
  const used = otherDay.length > 0 ? otherDay : naturals;
  return { naturals: used, source: "other_day", paired: false, sameConditions: otherDay.length > 0 };
}

function near(a: Run, b: Run): boolean {
  return a.startMs === null || b.startMs === null || Math.abs(a.startMs - b.startMs) <= TWELVE_HOURS_MS;
}

function sameConditions(a: Run, b: Run): boolean {
  return a.mixingFan === b.mixingFan && a.ventilation === b.ventilation;
}
