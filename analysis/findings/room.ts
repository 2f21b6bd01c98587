import { decaysOf, type Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Beyond this the air of a room is not mixed as fast as it is cleaned [1/h] (the method's figure). */
const STRONG_PER_H = 30;
const POOR_VOLUME = 0.05;
/** Smaller and larger than any room that people test cleaners in (common practice, no source): feet or litres taken for metres. */
const LIKELY_M3 = [1.5, 3000] as const;

/** Whether hardly a room has so much air, or so little [m³]. */
export function isUnlikelyVolume(volumeM3: number): boolean {
  return volumeM3 < LIKELY_M3[0] || volumeM3 > LIKELY_M3[1];
}

/** What the room allows. */
export function roomFindings(evidence: Evidence): RaisedFinding[] {
  const { trial, totalPerH } = evidence;
  const found: RaisedFinding[] = [];
  if (totalPerH.value > STRONG_PER_H) {
    const message =
      "The unit is strong for this room: mixing and the counter's own delay limit what can be measured. Test it in a larger room.";
    found.push(raised(evidence, "strong-unit", "warning", totalPerH.value, message));
  }
  const { value, u } = trial.room.volumeM3;
  if (u / value >= POOR_VOLUME) {
    const message =
      "The room's volume is known to 5 % or worse, and the result is no better than that. Measure length, width and height.";
    found.push(raised(evidence, "volume-estimated", "note", u / value, message));
  }
  if (isUnlikelyVolume(value)) {
    const message =
      "Hardly a room has the volume that was stated, and the result is as wrong as it is. Check its unit: 30 ft³ is less than 1 m³.";
    found.push(raised(evidence, "volume-unlikely", "serious", value, message));
  }
  return [...found, ...mixingFinding(evidence)];
}

/**
 * Without a mixing fan results come out lower by 3–16 % (Indoor Environments 3(2), 100165): a claim about the unit where it
 * stood, no error of it. The value is the share of the decays without.
 */
function mixingFinding(evidence: Evidence): RaisedFinding[] {
  const decays = decaysOf(evidence);
  const still = decays.filter(({ run }) => run.mixingFan === "off");
  if (still.length === 0) return [];
  const message =
    "No fan mixed the room: the result says how the unit cleans this room from where it stood, 3 to 16 % less in one comparison than with fans. To compare it with tests in mixed air, run a mixing fan in all runs.";
  return [raised(evidence, "mixing-not-forced", "note", still.length / decays.length, message)];
}
