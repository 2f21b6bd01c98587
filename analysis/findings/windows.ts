import { decaysOf, type Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Windows that the submitter fixed. */
export function windowFindings(evidence: Evidence): RaisedFinding[] {
  const byHand = decaysOf(evidence).find(({ window }) => window.byHand);
  if (byHand === undefined) return [];
  const message =
    byHand.automaticKPerH === null
      ? "A window of this result was fixed by hand, and the log shows no automatic one to compare it with. Mark what was done when, and the log finds its own."
      : "A window of this result was fixed by hand. Compare its rate with that of the automatic window, and leave the window to the log where the two agree.";
  return [raised(evidence, "window-fixed-by-hand", "note", byHand.automaticKPerH, message)];
}
