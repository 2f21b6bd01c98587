import { consensus } from "../consensus.ts";
import type { BandDecay } from "../counter-decays.ts";
import type { Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Decays repeated with one counter that differ beyond their u: their spread is in the fits' u. The value is it in m³/h. */
export function repeatFindings(evidence: Evidence): RaisedFinding[] {
  const { counters, trial } = evidence;
  const spread = (decays: readonly BandDecay[]) => {
    if (decays.length < 2) return 0;
    const { between } = consensus(decays.map(({ fit }) => fit.kPerH));
    return between.significant ? between.u : 0;
  };
  const widest = Math.max(...counters.flatMap(({ totals, match }) => [spread(totals), spread(match?.naturals ?? [])]));
  if (!(widest > 0)) return [];
  const message =
    "Decays that repeat each other differ by more than their own uncertainties, and the interval is widened for their spread. Repeat them under the same air: doors, ventilation and mixing alike.";
  return [raised(evidence, "repeats-differ", "warning", widest * trial.room.volumeM3.value, message)];
}
