import { FEW_COUNTS } from "./clean-air.ts";
import { median, runningMedian5 } from "./median.ts";
import type { Readings } from "./readings.ts";

/**
 * Index of the first reading from which on they lie below a level, −1 where they never do: its running median does, and the
 * median of it and all that follow, so that a counter that restarts ends nothing. Of few counts the mean of all that follow
 * decides: their median is 0 long before the air is clean.
 */
export function lastingFall(
  { values, quantity, stepQ }: Readings,
  level: number,
  smooth: Float64Array = runningMedian5(values),
): number {
  const means = quantity !== "mass" && level < FEW_COUNTS * stepQ ? meansToEnd(values) : null;
  return smooth.findIndex((v, i) => v < level && (means ? means[i]! : median(values.slice(i))) < level);
}

/** Mean of each value and all after it. */
function meansToEnd(values: Float64Array): Float64Array {
  const means = new Float64Array(values.length);
  let sum = 0;
  for (let i = values.length - 1; i >= 0; i--) {
    sum += values[i]!;
    means[i] = sum / (values.length - i);
  }
  return means;
}
