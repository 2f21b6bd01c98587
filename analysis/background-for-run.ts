import type { BandRun } from "./band-run.ts";
import { type BackgroundReading, readBackground } from "./clean-air.ts";
import { consensus } from "./consensus.ts";
import { leadReading } from "./run-timeline.ts";

/** The background run, else the run's own clean-air lead, else that of another run of the counter. */
export function backgroundFor(own: BandRun, runs: readonly BandRun[]): BackgroundReading | null {
  const background = runs.filter(({ run }) => run.role === "background");
  const levels = background.flatMap(({ run, readings }) => {
    const fixed = run.windows.find(({ phase }) => phase === "background");
    const from = fixed?.fromS ?? (readings.tS[0] ?? 0) + 5;
    return readBackground(readings, from, fixed?.toS ?? readings.tS.at(-1) ?? 0) ?? [];
  });
  if (levels.length > 0) return pooledLevel(levels);
  const fixed = own.run.windows.find(({ phase }) => phase === "background");
  const stated = fixed ? readBackground(own.readings, fixed.fromS, fixed.toS) : null;
  if (stated) return stated;
  const lead = ({ run, readings, timeline }: BandRun) => leadReading(run, readings, timeline);
  const others = () => runs.flatMap((each) => lead(each) ?? []);
  const leads = [lead(own) ?? others()].flat();
  return leads.length > 0 ? pooledLevel(leads) : null;
}

/** Several readings of one background, their spread within u: in whatever order they came. */
export function pooledLevel(levels: readonly BackgroundReading[]): BackgroundReading {
  const { value, u } = consensus(levels.map((level) => ({ ...level, dof: Infinity }))).estimate;
  return { value, u };
}
