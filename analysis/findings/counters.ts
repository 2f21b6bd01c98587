import type { Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Whether several counters tell the same. */
export function counterFindings(evidence: Evidence): RaisedFinding[] {
  const { trial, between } = evidence;
  if (!between.significant) return [];
  const message =
    "The counters differ by more than their own uncertainties, and the interval is widened for it. Let them stand side by side and compare them in the same air.";
  return [raised(evidence, "counters-spread", "warning", between.u * trial.room.volumeM3.value, message)];
}
