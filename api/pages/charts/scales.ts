/**
 * Scales of a drawing that phones make as well, where d3-scale and d3-shape with all they bring along would weigh as much as
 * a fifth of the analysis. Positions and marks are d3-scale's; a test holds the two together.
 */
export type Scale = (value: number) => number;

type Ends = readonly [number, number];

export function linearScale([low, high]: Ends, [from, to]: Ends): Scale {
  return (value) => from + ((value - low) / (high - low)) * (to - from);
}

export function logScale([low, high]: Ends, ends: Ends): Scale {
  const scale = linearScale([Math.log(low), Math.log(high)], ends);
  return (value) => scale(Math.log(value));
}

/** About so many round numbers between two ends, in steps of 1, 2 or 5 times a power of ten. */
export function evenTicks([low, high]: Ends, about: number): number[] {
  const rough = (high - low) / about;
  const power = Math.floor(Math.log10(rough));
  const left = rough / 10 ** power;
  // The step whose logarithm is nearest: the limits are the geometric means of 1, 2, 5 and 10.
  const times = left >= Math.sqrt(50) ? 10 : left >= Math.sqrt(10) ? 5 : left >= Math.sqrt(2) ? 2 : 1;
  // Of a step below 1 the inverse is whole, so that 3 of 0.1 are 0.3 to the last digit.
  const inverse = 10 ** -power / times;
  const number = power < 0 ? (n: number) => n / inverse : (n: number) => n * times * 10 ** power;
  const step = number(1);
  const ticks: number[] = [];
  for (let n = Math.ceil(low / step) || 0; number(n) <= high; n++) if (number(n) >= low) ticks.push(number(n));
  return ticks;
}

/** Points joined by straight lines, as the `d` of a path. */
export function linePath(points: readonly (readonly [x: number, y: number])[]): string {
  return points.length === 0 ? "" : `M${points.map(([x, y]) => `${x},${y}`).join("L")}`;
}
