import type { Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** CADR not above 0: reported unclipped, for clipping would bias every pool upwards. */
export function noEffectFindings(evidence: Evidence): RaisedFinding[] {
  const { trial, totalPerH, naturalPerH } = evidence;
  const cadrM3PerH = trial.room.volumeM3.value * (totalPerH.value - naturalPerH.value);
  if (cadrM3PerH > 0) return [];
  const message =
    "With the cleaner on, the air cleared no faster than without it: no effect can be shown. Check that it ran, and compare both decays in the same closed room.";
  return [raised(evidence, "no-effect", "serious", cadrM3PerH, message)];
}
