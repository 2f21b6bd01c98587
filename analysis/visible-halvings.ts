import { log } from "./log.ts";
import type { Readings } from "./readings.ts";

/** Channels that show the most halvings first: what a run's phases are told from. */
export function byVisibleHalvings(channels: readonly Readings[]): Readings[] {
  return channels
    .map((channel) => ({ channel, halvings: visibleHalvings(channel) }))
    .sort((a, b) => b.halvings - a.halvings)
    .map(({ channel }) => channel);
}

/** So many readings tell a channel's quantiles to a per cent: sorting all of a long log would cost more than fitting it. */
const ENOUGH = 1000;

/** How many halvings a channel can show, less what its ceiling hides. */
function visibleHalvings({ values, clipped, stepQ }: Readings): number {
  const every = Math.max(1, Math.floor(values.length / ENOUGH));
  const sorted = Float64Array.from({ length: Math.ceil(values.length / every) }, (_, i) => values[i * every]!).sort();
  const high = sorted[Math.floor(0.98 * sorted.length)] ?? 0;
  const low = Math.max(sorted[Math.floor(0.02 * sorted.length)] ?? 0, 4 * stepQ, 1e-3 * high);
  const hidden = clipped.includes(1) ? clipped.reduce((sum, c) => sum + c, 0) / clipped.length : 0;
  return high > 0 ? (log(high / low) / Math.LN2) * (1 - hidden) : 0;
}
