/** ISO 21501-4 allows a counter to lose so much at its stated maximum concentration (from memory). */
const LOSS_AT_MAXIMUM = 0.1;

/**
 * What a dead time that was not corrected makes the fitted k differ from the true one by [1/h], at most: the share lost,
 * p = 0.1·N₀/N_max at the start, fades as e^(−kt), and the least-squares line through ln C over a window T loses p·k·f(kT),
 * f(x) = 12/x³·[x(1+e^(−x))/2 − (1−e^(−x))]: 1 for a short window, 0.33 at x = 2.5. Below 0 where k is above 0.
 */
export function deadTimeBias(kPerH: number, windowH: number, startPerCm3: number, mostPerCm3: number): number {
  return (-LOSS_AT_MAXIMUM * startPerCm3 * kPerH * shareOfLine(kPerH * windowH)) / mostPerCm3;
}

/** f(x); its series 1 − x/2 where the terms would cancel. */
function shareOfLine(x: number): number {
  if (Math.abs(x) < 1e-2) return 1 - x / 2;
  return (12 / x ** 3) * ((x * (1 + Math.exp(-x))) / 2 + Math.expm1(-x));
}
