import { coverageFactor95 } from "../estimate.ts";
import type { Run } from "../trial.ts";
import { type Evidence, naturalsOf, totalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Natural loss drifts by about this much from day to day (the method's figure). */
const OTHER_DAY = 0.15;

/** Whether natural loss was measured, is one, and was seen under the conditions of the decays with the cleaner on. */
export function naturalLossFindings(evidence: Evidence): RaisedFinding[] {
  const { counters, naturalPerH } = evidence;
  const found: RaisedFinding[] = [];
  if (naturalsOf(evidence).length === 0) {
    const message =
      "Natural loss was not measured, so a typical value with a wide uncertainty was taken off. Log a decay with the cleaner off in the same room next time.";
    return [raised(evidence, "assumed-natural-loss", "warning", naturalPerH.value, message)];
  }
  const otherDay = counters.some(({ match }) => match?.source === "other_day");
  const conditionsDiffer = counters.some(({ match }) => match && !match.sameConditions);
  const drift = Math.abs(OTHER_DAY * naturalPerH.value);
  if (otherDay) {
    const message =
      "Natural loss was measured on another day, and rooms leak differently from day to day. Log both decays within twelve hours.";
    found.push(raised(evidence, "natural-other-day", "warning", hoursApart(evidence), message, drift));
  }
  if (conditionsDiffer) {
    const message =
      "Mixing fan or ventilation differed between the runs, and both change the natural loss. Keep them alike in all runs of a test.";
    found.push(raised(evidence, "conditions-differ", "warning", naturalPerH.value, message, otherDay ? 0 : drift));
  }
  // A room never gives particles back: what rises is still fed, by as much at least, and so is the decay it is taken off.
  if (naturalPerH.value < -coverageFactor95(naturalPerH.dof) * naturalPerH.u) {
    const message =
      "With the cleaner off the concentration rises: aerosol still came in, or particles grew into this channel. Close the source, wait until the air is mixed, and log the natural decay again.";
    found.push(raised(evidence, "still-being-fed", "serious", naturalPerH.value, message, -naturalPerH.value));
  }
  return found;
}

/** Least time between the start of a natural run and of one with the cleaner on, null where none is stated. */
function hoursApart(evidence: Evidence): number | null {
  const starts = (runs: readonly Run[]) => runs.flatMap(({ startMs }) => (startMs === null ? [] : [startMs]));
  const naturals = starts(naturalsOf(evidence).map(({ run }) => run));
  const apart = starts(totalsOf(evidence).map(({ run }) => run)).flatMap((t) => naturals.map((n) => Math.abs(t - n)));
  return apart.length === 0 ? null : Math.min(...apart) / 3.6e6;
}
