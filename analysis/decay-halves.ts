import type { DecayData, DecayParameters } from "./decay-model.ts";
import { dot } from "./decay-model.ts";
import { type DecayNoise, whiten } from "./decay-noise.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";

export interface Halves {
  readonly firstPerH: number;
  readonly secondPerH: number;
  /** u of their difference, that of the common background included. */
  readonly uDifference: number;
}

/**
 * k of the two halves of the readings, A and k free in each, B and noise as fitted to the whole: a decay that is one
 * exponential has equal halves. Null where a half is too short to have a slope.
 */
export function compareHalves(
  data: DecayData,
  at: DecayParameters,
  noise: DecayNoise,
  uBackground: number,
): Halves | null {
  const middle = data.tHours.length >> 1;
  const first = half(data, at, noise, 0, middle);
  const second = half(data, at, noise, middle, data.tHours.length);
  if (first === null || second === null) return null;
  const throughB = (first.perBackground - second.perBackground) * uBackground;
  return {
    firstPerH: first.k,
    secondPerH: second.k,
    uDifference: Math.hypot(first.u, second.u, throughB),
  };
}

function half(data: DecayData, at: DecayParameters, noise: DecayNoise, from: number, to: number) {
  if (to - from < 3) return null;
  const tHours = data.tHours.slice(from, to);
  const above = tHours.map((t) => Math.exp(at.lnA - at.kPerH * t));
  const expected = above.map((a) => a + at.background);
  const columns = [
    expected.map((mu, i) => (data.values[from + i]! - mu) / mu),
    above.map((a, i) => a / expected[i]!),
    above.map((a, i) => (-(tHours[i]! - tHours[0]!) * a) / expected[i]!),
    expected.map((mu) => 1 / mu),
  ];
  const grid = { tHours, expected, perBlock: data.perBlock, stepQ: data.stepQ };
  const [r, a, k, b] = whiten(noise, grid, columns).columns as [Float64Array, Float64Array, Float64Array, Float64Array];
  const inverse = invertPositiveDefinite([
    [dot(a, a), dot(a, k)],
    [dot(k, a), dot(k, k)],
  ])?.inverse;
  if (inverse === undefined) return null;
  const slope = (column: Float64Array) => inverse[1]![0]! * dot(a, column) + inverse[1]![1]! * dot(k, column);
  return { k: at.kPerH + slope(r), u: Math.sqrt(inverse[1]![1]!), perBackground: -slope(b) };
}
