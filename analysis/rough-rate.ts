import { AnalysisError } from "./analysis-error.ts";
import { logLinearFit } from "./log-linear-fit.ts";
import { firstAtOrAfter, type Readings } from "./readings.ts";

/** So many readings, spread over a span, tell a rate to two digits. */
const ENOUGH = 200;

/** k of the readings in a span to one or two digits [1/h], 0 where it cannot be told: what waiting times are reckoned by. */
export function roughKPerH({ tS, values, clipped }: Readings, fromS: number, toS: number): number {
  const from = firstAtOrAfter(tS, fromS);
  let to = firstAtOrAfter(tS, toS);
  if (tS[to] === toS) to++;
  const every = Math.max(1, Math.floor((to - from) / ENOUGH));
  const tHours: number[] = [];
  const levels: number[] = [];
  for (let i = from; i < to; i += every) {
    if (clipped[i] === 1) continue;
    tHours.push(tS[i]! / 3600);
    levels.push(values[i]!);
  }
  try {
    return logLinearFit(tHours, levels).kPerH;
  } catch (error) {
    if (error instanceof AnalysisError) return 0;
    throw error;
  }
}
