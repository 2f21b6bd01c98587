import { AEROSOL_WORDS } from "../pages/aerosol-words.ts";
import { paidWords } from "../pages/who-paid.tsx";
import type { PinnedResult } from "../wire/pinned.ts";

type Counts = Readonly<Record<string, number>>;

/**
 * What amendments put right since, a phrase each, for whoever reads the figure where it was quoted: who paid and what was in
 * the air. Of a pooled figure as all its tests have it now.
 */
export function correctedWords(result: PinnedResult): string[] {
  const paid = correctedInterest(result);
  const { pinned, corrections } = result;
  const aerosols = changed(pinned.kind === "trial" ? { [pinned.aerosol]: 1 } : pinned.aerosols, corrections, "aerosol");
  return [
    ...(paid ? [`who paid was corrected to: ${paidWords(paid)}`] : []),
    ...(aerosols ? [`the aerosol was corrected to: ${aerosolWords(aerosols)}`] : []),
  ];
}

/** Tests by who paid as the newest revisions have it; null where that was not corrected. */
export function correctedInterest({ pinned, corrections }: PinnedResult): Counts | null {
  return changed(pinned.kind === "trial" ? { [pinned.interest]: 1 } : pinned.interest, corrections, "interest");
}

function changed(then: Counts, corrections: PinnedResult["corrections"], of: "interest" | "aerosol"): Counts | null {
  const moved = corrections.map((each) => each[of]).filter(({ from, to }) => from !== to);
  if (moved.length === 0) return null;
  const now = new Map(Object.entries(then));
  for (const { from, to } of moved) {
    now.set(from, (now.get(from) ?? 0) - 1);
    now.set(to, (now.get(to) ?? 0) + 1);
  }
  return Object.fromEntries([...now].filter(([, count]) => count > 0));
}

function aerosolWords(counts: Counts): string {
  const words = Object.entries(counts).map(([kind, count]) => {
    const word = (AEROSOL_WORDS as Readonly<Record<string, string>>)[kind] ?? kind;
    return { word, count };
  });
  return words.length === 1 ? words[0]!.word : words.map(({ word, count }) => `${count} × ${word}`).join(", ");
}
