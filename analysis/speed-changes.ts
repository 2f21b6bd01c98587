import { backgroundFor } from "./background-for-run.ts";
import type { BandRun } from "./band-run.ts";
import { findDecayWindows } from "./decay-windows.ts";
import type { PreparedRun } from "./prepare-run.ts";
import { findSpeedChange } from "./speed-change.ts";
import type { Counter } from "./trial.ts";

interface Prepared {
  readonly run: PreparedRun;
  readonly counter: Counter;
}

/**
 * The runs with the breaks of their total decays, each as the column that shows the most sees them. A background read anywhere
 * in the trial bounds the floor: without one a slower rate is hard to tell from a higher floor.
 */
export function withSpeedChanges<P extends Prepared>(prepared: readonly P[]): P[] {
  return prepared.map((own) => {
    const { run, counter } = own;
    const guide = run.columns.find(({ readings }) => readings === run.guide);
    if (guide === undefined || guide.readings.tS.length === 0) return own;
    const asBand = ({ run: { run: sent, columns, timeline } }: Prepared): BandRun[] => {
      const column = columns.find(({ band }) => band.name === guide.band.name);
      return column ? [{ run: sent, readings: column.readings, timeline }] : [];
    };
    const clean = backgroundFor(asBand(own)[0]!, prepared.filter((other) => other.counter === counter).flatMap(asBand));
    const mostBackground = clean === null ? Infinity : clean.value + 2 * clean.u;
    const cycles = run.timeline.cycles.map((cycle) => {
      const alone = { ...run.timeline, cycles: [cycle] };
      const windows = findDecayWindows({ ...run.run, windows: [] }, counter, guide.readings, alone);
      const total = windows.find(({ phase }) => phase === "total");
      if (total === undefined) return cycle;
      return { ...cycle, speedChange: findSpeedChange(guide.readings, total.fromS, total.toS, mostBackground) };
    });
    return { ...own, run: { ...run, timeline: { ...run.timeline, cycles } } };
  });
}
