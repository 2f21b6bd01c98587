import type { BandDecay } from "../counter-decays.ts";
import { biasOfDifference, decaysOf, type Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Biases under this share of k_total − k_natural are not worth a word. */
const WORTH_TELLING = 0.005;

/** What so many particles do to each other and to the counter. */
export function counterLimitFindings(evidence: Evidence): RaisedFinding[] {
  const { totalPerH, naturalPerH } = evidence;
  const found: RaisedFinding[] = [];
  const coagulated = biasOfDifference(evidence, coagulationPerH);
  if (Math.abs(coagulated) > WORTH_TELLING * Math.abs(totalPerH.value - naturalPerH.value)) {
    const message =
      "There are so many particles that they stick together, which quickens the decays (1/h, at least) and mostly the natural one. Start from less aerosol.";
    found.push(raised(evidence, "coagulation", "warning", coagulated, message, Math.abs(coagulated)));
  }
  if (decaysOf(evidence).some(({ window }) => window.afterCeiling)) {
    const message =
      "The counter stood at its highest reading, so the decay begins only where it left it. Start from less aerosol to use the whole decay.";
    found.push(raised(evidence, "at-ceiling", "note", null, message));
  }
  return found;
}

/**
 * Bias of k by coagulation, b = 3600·K·N̄ [1/h], N̄ the mean number in 1/cm³ over the window: a lower bound, for a counter
 * does not see the smallest. K = 7·10⁻¹⁰ cm³/s (near 0.1 µm; computed).
 */
function coagulationPerH({ readings: { quantity, values } }: BandDecay): number {
  if (quantity !== "number") return 0;
  return (3600 * 7e-10 * values.reduce((a, b) => a + b, 0)) / values.length;
}
