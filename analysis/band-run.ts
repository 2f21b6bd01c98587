import type { Readings } from "./readings.ts";
import type { RunTimeline } from "./run-timeline.ts";
import type { Run } from "./trial.ts";

/** One run as one band sees it. */
export interface BandRun {
  readonly run: Run;
  readonly readings: Readings;
  readonly timeline: RunTimeline;
}
