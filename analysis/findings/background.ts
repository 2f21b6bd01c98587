import { type Evidence, totalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Whether the reading of clean air agrees with the decays. */
export function backgroundFindings(evidence: Evidence): RaisedFinding[] {
  if (!totalsOf(evidence).some((decay) => decay.backgroundInconsistent)) return [];
  const message =
    "With the cleaner on, the readings fall lower than the clean-air reading allows. Log the clean air right before the aerosol, with the cleaner off and the room closed.";
  return [raised(evidence, "background-inconsistent", "warning", null, message)];
}
