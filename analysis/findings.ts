import { backgroundFindings } from "./findings/background.ts";
import { counterLagFindings } from "./findings/counter-lag.ts";
import { counterLimitFindings } from "./findings/counter-limits.ts";
import { counterFindings } from "./findings/counters.ts";
import { decayShapeFindings } from "./findings/decay-shape.ts";
import type { Evidence } from "./findings/evidence.ts";
import { logLengthFindings } from "./findings/log-length.ts";
import { naturalLossFindings } from "./findings/natural-loss.ts";
import { noEffectFindings } from "./findings/no-effect.ts";
import { phaseFindings } from "./findings/phases.ts";
import type { RaisedFinding } from "./findings/raised-finding.ts";
import { repeatFindings } from "./findings/repeats.ts";
import { roomFindings } from "./findings/room.ts";
import { windowFindings } from "./findings/windows.ts";

/** Who looks for findings, in the order in which they are told. */
const FINDERS: readonly ((evidence: Evidence) => RaisedFinding[])[] = [
  noEffectFindings,
  naturalLossFindings,
  backgroundFindings,
  logLengthFindings,
  decayShapeFindings,
  counterLagFindings,
  counterLimitFindings,
  roomFindings,
  windowFindings,
  phaseFindings,
  repeatFindings,
  counterFindings,
];

/** What a reader should know about a band's result, and what of it widens the interval. */
export function findingsOf(evidence: Evidence): RaisedFinding[] {
  return FINDERS.flatMap((find) => find(evidence));
}
