import type { BandDecay } from "../counter-decays.ts";
import { deadTimeBias } from "../dead-time-bias.ts";
import { expm1 } from "../exp.ts";
import { median } from "../median.ts";
import type { Counter } from "../trial.ts";
import { biasOfDifference, decaysOf, type Evidence } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/** Biases under this share of k_total − k_natural are not worth a word. */
const WORTH_TELLING = 0.005;
/** Up to this share of its stated maximum a counter's dead time may be forgotten (the method's figure). */
const CROWDED = 0.2;

/** What so many particles do to each other and to the counter. */
export function counterLimitFindings(evidence: Evidence): RaisedFinding[] {
  return [...coagulationFinding(evidence), ...deadTimeFinding(evidence), ...ceilingFinding(evidence)];
}

function coagulationFinding(evidence: Evidence): RaisedFinding[] {
  const { totalPerH, naturalPerH } = evidence;
  const bias = biasOfDifference(evidence, coagulationPerH);
  if (!(Math.abs(bias) > WORTH_TELLING * Math.abs(totalPerH.value - naturalPerH.value))) return [];
  const message =
    "There are so many particles that they stick together, which quickens the decays, and mostly the natural one. Start from less aerosol.";
  return [raised(evidence, "coagulation", "warning", bias, message, Math.abs(bias))];
}

/**
 * Bias of k by coagulation, b = 3600·K·N̄ [1/h], N̄ = B + A(1 − e^(−kT))/kT the mean number in 1/cm³ over the window: a lower
 * bound, for a counter does not see the smallest. K = 7·10⁻¹⁰ cm³/s (near 0.1 µm; computed).
 */
function coagulationPerH({ readings: { quantity }, fit }: BandDecay): number {
  if (quantity !== "number") return 0;
  const x = fit.kPerH.value * fit.windowH;
  const mean = fit.background.value + fit.amplitude * (x === 0 ? 1 : -expm1(-x) / x);
  return 3600 * 7e-10 * mean;
}

/** The value is the share of the stated maximum at which the fullest decay begins. */
function deadTimeFinding(evidence: Evidence): RaisedFinding[] {
  const crowding = (decay: BandDecay, counter: Counter) => {
    const { maxConcentrationPerCm3: most, sampleFlowCm3PerS, deadTimeS } = counter;
    const corrected = sampleFlowCm3PerS !== null && deadTimeS !== null;
    return most === null || corrected || decay.readings.quantity !== "number" ? 0 : startPerCm3(decay) / most;
  };
  const fullest = Math.max(
    0,
    ...evidence.counters.flatMap(({ counter, totals, match }) =>
      [...totals, ...(match?.naturals ?? [])].map((decay) => crowding(decay, counter)),
    ),
  );
  if (!(fullest > CROWDED)) return [];
  const bias = biasOfDifference(evidence, (decay, counter) =>
    deadTimeBias(decay.fit.kPerH.value, decay.fit.windowH, crowding(decay, counter)),
  );
  const message =
    "A decay begins near the counter's stated maximum, where particles hide behind each other, and its dead time is not stated: its rate comes out too low. State sample flow and dead time, or start from less aerosol.";
  return [raised(evidence, "undeclared-dead-time", "warning", fullest, message, Math.abs(bias))];
}

/** All particles counted as the decay begins, whatever their size: the widest cumulative channel or the sum of the others. */
function startPerCm3({ run: { series }, readings }: BandDecay): number {
  const rows = [...series.tS.keys()].filter((row) => series.tS[row]! >= readings.tS[0]!).slice(0, 5);
  const counted = series.channels.filter(({ quantity }) => quantity === "number");
  const all = rows.map((row) => {
    const at = (cumulative: boolean) =>
      counted.filter((c) => (c.cumulative !== "none") === cumulative).map(({ values }) => values[row]! || 0);
    return Math.max(
      0,
      ...at(true),
      at(false).reduce((a, b) => a + b, 0),
    );
  });
  return median(all);
}

/** The value is the level at which the decay begins, in the channel's unit. */
function ceilingFinding(evidence: Evidence): RaisedFinding[] {
  const cut = decaysOf(evidence).filter(({ window }) => window.afterCeiling);
  if (cut.length === 0) return [];
  const level = Math.max(...cut.map(({ readings }) => readings.values[0]!));
  const message =
    "The counter stood at its highest reading, so the decay begins only where it left it. Start from less aerosol to use the whole decay.";
  return [raised(evidence, "at-ceiling", "note", level, message)];
}
