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
  const most = MOST_OVER_MIDDLE * (reaches[(reaches.length - 1) >> 1] ?? 0);
  const within = (end: number) => Math.abs(end) <= most;
  return {
    low: Math.min(0, ...intervals.map(({ low }) => low).filter(within)),
    high: Math.max(0, ...intervals.map(({ high }) => high).filter(within)),
  };
}
