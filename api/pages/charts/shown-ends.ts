interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A row beyond so many times the middle one would leave half the others less than a tenth of the width. */
const MOST_OVER_MIDDLE = 10;

/**
 * The ends of a scale that several intervals share, 0 within: the least and the greatest end, but for those that reach over
 * ten times as far as the middle row, which run off. Of two rows the smaller one is the middle.
 */
export function shownEnds(intervals: readonly Interval[]): Interval {
  const reaches = intervals.map(({ low, high }) => Math.max(-low, high)).sort((a, b) => a - b);
  return endsWithin(intervals, MOST_OVER_MIDDLE * (reaches[(reaches.length - 1) >> 1] ?? 0));
}

/** The ends of a scale for intervals of which those beyond `most` to either side run off, unless all do. */
export function endsWithin(intervals: readonly Interval[], most: number): Interval {
  const within = (end: number) => Math.abs(end) <= most;
  const low = Math.min(0, ...intervals.map((each) => each.low).filter(within));
  const high = Math.max(0, ...intervals.map((each) => each.high).filter(within));
  return low < high || most === Infinity ? { low, high } : endsWithin(intervals, Infinity);
}
