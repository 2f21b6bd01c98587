import type { Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Beyond this the air of a room is not mixed as fast as it is cleaned [1/h] (the method's figure). */
const STRONG_PER_H = 30;
const POOR_VOLUME = 0.05;

/** What the room allows. */
export function roomFindings(evidence: Evidence): RaisedFinding[] {
  const { trial, totalPerH } = evidence;
  const found: RaisedFinding[] = [];
  if (totalPerH.value > STRONG_PER_H) {
    const message =
      "The unit is strong for this room (1/h): mixing and the counter's own delay limit what can be measured. Test it in a larger room.";
    found.push(raised(evidence, "strong-unit", "warning", totalPerH.value, message));
  }
  const { value, u } = trial.room.volumeM3;
  if (u / value >= POOR_VOLUME) {
    const message =
      "The room's volume is known to 5 % or worse, and the result is no better than that. Measure length, width and height.";
    found.push(raised(evidence, "volume-estimated", "note", u / value, message));
  }
  return found;
}
