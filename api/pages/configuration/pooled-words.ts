import type { BasisOut } from "../../wire/entry.ts";
import { UNPAIRED_WORDS } from "../basis-words.ts";
import { counted } from "../counts.ts";
import { percentOf } from "../percent.ts";
import { seriousWords } from "../serious.tsx";

/** From as many testers on their own scatter tells how far they differ, as where results are pooled. */
const SELF_SUFFICIENT = 5;

/** By how much laboratories are taken to differ in a figure, and where that comes from. */
export function spreadWords({ spread, submitters, tau }: BasisOut): string {
  const all = `a standard deviation of ${percentOf(spread.relative)}${
    spread.source === "learnt"
      ? ", learnt from the cleaners that three testers or more measured"
      : ", until three cleaners were measured by three testers or more each"
  }`;
  const held = spread.source === "learnt" ? "found" : "assumed";
  if (submitters >= SELF_SUFFICIENT && tau !== null) {
    return `How far laboratories differ is taken from these ${submitters} testers: a standard deviation of ${percentOf(tau)}. The prediction also leans on what is ${held} for all cleaners: ${all}.`;
  }
  const start = `Laboratories are ${held} to differ by ${all}`;
  if (submitters === 1 || tau === null) return `${start}; a single tester shows nothing of it.`;
  return `${start}. With what these ${submitters} testers show of it, ${percentOf(tau)} was used.`;
}

/** What a figure may not be quoted for, or what its reader should know first. */
export function limitsOf(basis: BasisOut): string[] {
  const { trials, submitters, rooms, unpaired, interest, aerosols, serious } = basis;
  const kinds = Object.keys(aerosols).length;
  return [
    serious > 0
      ? `Before you quote it: ${seriousWords(basis)}, which may make the figure wrong. It is marked among the tests below.`
      : "",
    trials === 1
      ? "One test only: it tells what one specimen did in one room by one counter. It may not claim that another room would find the same, that all specimens are alike, or, without a comparison of the two, that it beats a cleaner whose interval overlaps its own. Quote it with its interval and as one test."
      : submitters === 1
        ? `All ${trials} tests are one tester’s${rooms === 1 ? ", in one room" : ""}: what their counter or habits get wrong is wrong in all of them, and another tester may find something else.`
        : "",
    unpaired === trials && trials === 1
      ? `It is unpaired: ${UNPAIRED_WORDS}. The list leaves it out unless it is asked for.`
      : unpaired > 0
        ? `${unpaired === trials ? "All" : counted(unpaired, "test")} unpaired: ${UNPAIRED_WORDS}.`
        : "",
    kinds > 1
      ? "It mixes aerosols, and particles of one size need not clear alike whatever they are made of: see the figures by aerosol. The list filtered by one aerosol does not rank it, and names it with its figure for that aerosol."
      : "",
    "independent" in interest ? "" : "No test of it is by someone who bought or built the cleaner themselves.",
  ].filter(Boolean);
}
