import { runningMedian5 } from "./median.ts";
import type { Readings } from "./readings.ts";

/** A climb by so much of what the channel shows in all is new aerosol; puffs of one feed and noise are less. */
const CLIMB = 0.3;
/** And by so many times the scatter of readings about their neighbours: where they are few counts, noise climbs too. */
const CLIMB_SCATTERS = 8;
/** A decay came before it: so many readings, down to this share of their top. */
const LEAST_READINGS = 9;
const FALLEN = 0.6;

/**
 * Times at which aerosol begins to be fed anew: where the channel, fallen from a top over nine readings or more by as much and to
 * under 0.6 of it, climbs by 0.3 of its whole range and eight times the scatter, and to half as much again, and nine readings follow. The
 * first feed is none of them.
 */
export function laterFeeds({ tS, values }: Readings): number[] {
  const smooth = runningMedian5(values);
  let [highest, least] = [0, Infinity];
  for (const v of smooth) {
    highest = Math.max(highest, v);
    least = Math.min(least, v);
  }
  const climb = Math.max(CLIMB * (highest - least), CLIMB_SCATTERS * scatterAbout(smooth, values));
  const feeds: number[] = [];
  let top = 0;
  let low = 0;
  for (let i = 1; i < smooth.length - LEAST_READINGS; i++) {
    const value = smooth[i]!;
    const fallen = smooth[low]! < Math.min(FALLEN * smooth[top]!, smooth[top]! - climb);
    const decayed = fallen && low - top >= LEAST_READINGS;
    if (decayed && value > smooth[low]! + climb && value > 1.5 * smooth[low]!) {
      feeds.push(tS[low]!);
      top = i;
      low = i;
    } else if (value >= smooth[top]! && !decayed) {
      top = i;
      low = i;
    } else if (value <= smooth[low]!) low = i;
  }
  return feeds;
}

/** SD of the readings about their running median where it is widest: the 90 % quantile of normal errors is 1.645 SD. */
function scatterAbout(smooth: Float64Array, values: Float64Array): number {
  const every = Math.max(1, Math.floor(values.length / 1000));
  const count = Math.ceil(values.length / every);
  const away = Float64Array.from({ length: count }, (_, i) => Math.abs(values[i * every]! - smooth[i * every]!)).sort();
  return (away[Math.floor(0.9 * count)] ?? 0) / 1.645;
}
