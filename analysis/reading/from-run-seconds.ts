import type { TimeScale } from "./time-to-seconds.ts";
import { SECONDS_PER_UNIT } from "./time-to-seconds.ts";

/**
 * Seconds after a run's first row → the run's own time as marks and windows give it, the inverse of `toRunSeconds`: a stamp
 * (RFC 3339; without a zone where the log has none), a clock, or a number in the log's unit. Stamps and clocks hold ms.
 */
export function fromRunSeconds(seconds: number, { unit, origin, zoned }: TimeScale): number | string {
  if (unit === "datetime") {
    const stamp = new Date(Math.round(origin + 1000 * seconds)).toISOString();
    return zoned ? stamp : stamp.slice(0, -1);
  }
  if (unit === "clock") return clockText(Math.round(1000 * (origin + seconds)));
  return unit === "ms" ? origin + 1000 * seconds : origin + seconds / SECONDS_PER_UNIT[unit];
}

/** hh:mm:ss.sss; past midnight the hours go on counting, so that a log of days stays unambiguous. */
function clockText(ms: number): string {
  const two = (x: number) => String(x).padStart(2, "0");
  const hours = Math.floor(ms / 3_600_000);
  const minutes = Math.floor(ms / 60_000) % 60;
  return `${two(hours)}:${two(minutes)}:${((ms / 1000) % 60).toFixed(3).padStart(6, "0")}`;
}
