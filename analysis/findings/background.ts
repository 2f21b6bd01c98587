import { tailLevel } from "../background-priors.ts";
import { type Evidence, totalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Whether the reading of clean air agrees with the decays. The value is the level they fall to, in the channel's unit. */
export function backgroundFindings(evidence: Evidence): RaisedFinding[] {
  const against = totalsOf(evidence).filter((decay) => decay.backgroundInconsistent);
  if (against.length === 0) return [];
  const lowest = Math.min(...against.map(({ readings }) => tailLevel(readings)));
  const message =
    "With the cleaner on, the readings fall lower than the clean-air reading allows. Log the clean air right before the aerosol, with the cleaner off and the room closed.";
  return [raised(evidence, "background-inconsistent", "warning", lowest, message)];
}
