import { type Evidence, naturalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Natural loss drifts by about this much from day to day (the method's figure). */
const OTHER_DAY = 0.15;

/** Whether natural loss was measured, and under the conditions of the decays with the cleaner on. */
export function naturalLossFindings(evidence: Evidence): RaisedFinding[] {
  const { counters, naturalPerH } = evidence;
  const found: RaisedFinding[] = [];
  if (naturalsOf(evidence).length === 0) {
    const message =
      "Natural loss was not measured, so a typical value (1/h) with a wide uncertainty was taken off. Log a decay with the cleaner off in the same room next time.";
    found.push(raised(evidence, "assumed-natural-loss", "warning", naturalPerH.value, message));
  }
  const otherDay = counters.some(({ match }) => match?.source === "other_day");
  const conditionsDiffer = counters.some(({ match }) => match && !match.sameConditions);
  const drift = Math.abs(OTHER_DAY * naturalPerH.value);
  if (otherDay) {
    const message =
      "Natural loss was measured on another day, and rooms leak differently from day to day. Log both decays within twelve hours.";
    found.push(raised(evidence, "natural-other-day", "warning", null, message, drift));
  }
  if (conditionsDiffer) {
    const message =
      "Mixing fan or ventilation differed between the runs, and both change the natural loss. Keep them alike in all runs of a test.";
    found.push(raised(evidence, "conditions-differ", "warning", null, message, otherDay ? 0 : drift));
  }
  return found;
}
