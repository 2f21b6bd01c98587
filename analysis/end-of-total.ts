import { lastingFall } from "./lasting-fall.ts";
import type { Cycle } from "./marked-cycles.ts";
import { median, runningMedian5 } from "./median.ts";
import { type Readings, readingsBetween } from "./readings.ts";

/**
 * Total stops at the first lasting fall below max(1 % of the start, 8 steps of a mass counter), and before a climb by a
 * fifth of the start (and eight times the readings' scatter), for under a cleaner only new aerosol makes it climb. A change
 * of speed ends it earlier.
 */
export function endOfTotal(
  readings: Readings,
  fromS: number,
  { toS: endS, speedChange }: Cycle,
): { toS: number; why: string } {
  const breakS = speedChange === null ? Infinity : speedChange.atS - 2 * speedChange.uS;
  const toS = Math.min(endS, breakS);
  const window = readingsBetween(readings, fromS, toS);
  const { tS, values, stepQ, quantity } = window;
  const smooth = runningMedian5(values);
  const start = median(smooth.slice(0, 3));
  // A counter that begins under 16 steps would otherwise end before it began.
  const least = Math.max(0.01 * start, quantity === "mass" ? Math.min(8 * stepQ, 0.5 * start) : 0);
  const early = Math.ceil(values.length / 4);
  const scatter = 1.4826 * median(values.slice(0, early).map((v, i) => Math.abs(v - smooth[i]!)));
  const climb = Math.max(0.2 * start, 8 * stepQ, 8 * scatter);
  const floor = lastingFall(window, least, smooth);
  let lowest = 0;
  for (let i = 1; i < smooth.length; i++) {
    if (smooth[i]! < smooth[lowest]!) lowest = i;
    if (smooth[i]! - smooth[lowest]! > climb) return { toS: tS[lowest]!, why: "until it rose again" };
    if (i === floor) return { toS: tS[i - 1]!, why: "down to its floor" };
  }
  return { toS, why: breakS < endS ? "until its rate changed" : "to the end" };
}
