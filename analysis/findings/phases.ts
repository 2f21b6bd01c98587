import type { MarkDispute } from "../mark-disputes.ts";
import type { SpeedChange } from "../speed-change.ts";
import { decaysOf, type Evidence, totalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** When the cleaner worked: a unit that changed its speed, and marks that the readings contradict. */
export function phaseFindings(evidence: Evidence): RaisedFinding[] {
  return [...speedChangeFinding(evidence), ...marksFinding(evidence)];
}

/** The value is the rate after the break, 1/h. */
function speedChangeFinding(evidence: Evidence): RaisedFinding[] {
  const broken = totalsOf(evidence).flatMap(({ window }) => (window.speedChange ? [window] : []));
  const first = broken.find(({ byHand }) => byHand) ?? broken[0];
  if (first === undefined) return [];
  const change = first.speedChange!;
  const where = first.byHand
    ? "The window fixed by hand holds both, and its rate is neither"
    : "Only what came before is used";
  const message = `With the cleaner on, the decay changes its rate: ${rates(change)}. ${where}. Mark a change of speed or the end of the run, and keep one setting for a whole decay.`;
  return [raised(evidence, "speed-change", first.byHand ? "serious" : "warning", change.kAfterPerH, message)];
}

function rates({ kBeforePerH, kAfterPerH, atS }: SpeedChange): string {
  return `from ${kBeforePerH.toFixed(2)} to ${kAfterPerH.toFixed(2)} /h about ${Math.round(atS)} s into the log`;
}

/** The value is how long after the mark the readings show the event, in s: negative where they show it before. */
function marksFinding(evidence: Evidence): RaisedFinding[] {
  const disputes = decaysOf(evidence).flatMap(({ window }) => window.disputes);
  if (disputes.length === 0) return [];
  const worst = disputes.reduce((a, b) => (Math.abs(b.byS) > Math.abs(a.byS) ? b : a));
  const message = `A mark is contradicted: ${told(worst)} Set the clock you mark by to the counter's.`;
  return [raised(evidence, "marks-contradicted", "warning", worst.byS, message)];
}

function told({ event, byS, outside }: MarkDispute): string {
  const apart = `${Math.round(Math.abs(byS))} s`;
  const mark = `the mark “${event.replaceAll("_", " ")}”`;
  if (outside) return `${mark} lies ${apart} after the last reading, and was not used.`;
  if (event === "aerosol_end") {
    return `the readings went on rising for ${apart} after ${mark}, and the decay is taken from their peak.`;
  }
  const side = byS > 0 ? "after" : "before";
  return `the decay quickens ${apart} ${side} ${mark}, and what lies between the two is used for neither decay.`;
}
