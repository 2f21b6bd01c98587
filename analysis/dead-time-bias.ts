import { exp, expm1 } from "./exp.ts";
import { log } from "./log.ts";

/** ISO 21501-4 lets a counter lose a tenth at its stated maximum concentration (from memory): 1 − e^(−x) = 0.1. */
const LOAD_AT_MAXIMUM = -log(0.9);

/**
 * What a dead time that was not corrected makes the fitted k differ from the true one by [1/h], at most. `crowding` is the
 * share of the stated maximum at the start: the load x₀ = 0.105·crowding takes e^(−x) from the readings and fades as e^(−kt), and
 * the least-squares line through ln C over a window T loses x₀·k·f(kT), f(x) = 12/x³·[x(1+e^(−x))/2 − (1−e^(−x))]: 1 for a
 * short window, 0.33 at x = 2.5. Below 0 where k is above 0.
 */
export function deadTimeBias(kPerH: number, windowH: number, crowding: number): number {
  return -LOAD_AT_MAXIMUM * crowding * kPerH * shareOfLine(kPerH * windowH);
}

/** f(x); its series 1 − x/2 where the terms would cancel. */
function shareOfLine(x: number): number {
  if (Math.abs(x) < 1e-2) return 1 - x / 2;
  return (12 / x ** 3) * ((x * (1 + exp(-x))) / 2 + expm1(-x));
}
