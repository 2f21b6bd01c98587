import { decaysOf, type Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Windows that the submitter fixed. */
export function windowFindings(evidence: Evidence): RaisedFinding[] {
  const byHand = decaysOf(evidence).find(({ window }) => window.byHand);
  if (byHand === undefined) return [];
  const message =
    byHand.automaticKPerH === null
      ? "The submitter fixed a window of this result; the log shows no automatic one to compare it with. Send marks of what was done when, and the log finds its own."
      : "The submitter fixed a window of this result. The value is the rate (1/h) that the automatic window gives: leave the window to the log where the two agree.";
  return [raised(evidence, "window-fixed-by-hand", "note", byHand.automaticKPerH, message)];
}
