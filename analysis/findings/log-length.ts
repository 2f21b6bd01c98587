import { decaysOf, type Evidence, totalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

const FEW_HALVINGS = 2;
const FEW_READINGS = 12;

/** Whether enough was logged. */
export function logLengthFindings(evidence: Evidence): RaisedFinding[] {
  const found: RaisedFinding[] = [];
  const halvings = Math.min(...totalsOf(evidence).map(({ fit }) => (fit.kPerH.value * fit.windowH) / Math.LN2));
  if (halvings < FEW_HALVINGS) {
    const message =
      "The concentration halves less than twice in the decay with the cleaner on. Log longer, or start from more aerosol, for a narrower interval.";
    found.push(raised(evidence, "few-halvings", "warning", halvings, message));
  }
  const fewest = Math.min(...decaysOf(evidence).map(({ fit }) => fit.n));
  if (fewest < FEW_READINGS) {
    const message =
      "A decay has under 12 readings: expect errors of 8 to 12 %. Set the counter to a shorter interval, or log longer.";
    found.push(raised(evidence, "short-log", "warning", fewest, message));
  }
  return found;
}
