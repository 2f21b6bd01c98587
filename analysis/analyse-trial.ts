import { analyseBand } from "./analyse-band.ts";
import type { Analysis, Band, BandNatural, BandResult, Dropped, FoundPhase, Refusal } from "./analysis.ts";
import type { BandRun } from "./band-run.ts";
import { findDecayWindows } from "./decay-windows.ts";
import { METHOD_VERSION } from "./method-version.ts";
import { type PreparedRun, prepareRun } from "./prepare-run.ts";
import { withSpeedChanges } from "./speed-changes.ts";
import type { Counter, Trial } from "./trial.ts";

/**
 * Analyses one trial: cleans each run, finds its phases, fits the decays of each band and channel, and turns their
 * difference into a clean air delivery rate with its budget. Whatever gives no number is a typed refusal, never a throw.
 */
export function analyseTrial(trial: Trial): Analysis {
  const counters = new Map(trial.counters.map((counter) => [counter.id, counter]));
  const refusals: Refusal[] = [];
  const cleaned = trial.runs.flatMap((run): { run: PreparedRun; counter: Counter }[] => {
    const counter = counters.get(run.counter);
    if (counter) return [{ run: prepareRun(run, counter), counter }];
    refusals.push({
      band: null,
      run: run.index,
      code: "counters-disagree",
      message: `no counter ${run.counter} is stated`,
    });
    return [];
  });
  const prepared = withSpeedChanges(cleaned);
  refusals.push(...prepared.flatMap(({ run }) => run.refusals));
  const dropped: Dropped[] = prepared.flatMap(({ run }) => run.dropped);

  const results: BandResult[] = [];
  const naturals: BandNatural[] = [];
  for (const band of bandsOf(prepared.map(({ run }) => run))) {
    const seenBy = trial.counters.flatMap((counter) => {
      const runs = prepared.flatMap((p): BandRun[] => {
        const column = p.counter === counter ? p.run.columns.find((c) => c.band.name === band.name) : undefined;
        return column ? [{ run: p.run.run, readings: column.readings, timeline: p.run.timeline }] : [];
      });
      return runs.length > 0 ? [{ counter, runs }] : [];
    });
    const outcome = analyseBand(trial, band, seenBy);
    refusals.push(...outcome.refusals);
    if (outcome.result) results.push(outcome.result);
    if (outcome.natural) naturals.push(outcome.natural);
  }
  if (results.length === 0 && refusals.length === 0) {
    refusals.push({
      band: null,
      run: null,
      code: "no-total-decay",
      message: "no run holds a band or channel to analyse",
    });
  }
  return { methodVersion: METHOD_VERSION, phases: phasesOf(prepared), results, naturals, refusals, dropped };
}

/** Standard bands in their own order, then channels in the order sent; each once. */
function bandsOf(runs: readonly PreparedRun[]): Band[] {
  const order = ["0.1-1.0", "0.5-3.0", "5-11", "mass"];
  const bands = new Map<string, Band>();
  for (const { columns } of runs) for (const { band } of columns) if (!bands.has(band.name)) bands.set(band.name, band);
  const place = ({ kind, name }: Band) => (kind === "standard" ? order.indexOf(name) : order.length);
  return [...bands.values()].sort((a, b) => place(a) - place(b));
}

/** The phases of each run as its leading channel shows them. */
function phasesOf(prepared: readonly { run: PreparedRun; counter: Counter }[]): FoundPhase[] {
  return prepared.flatMap(({ run: { run, timeline, guide }, counter }) => {
    if (guide === null) return [];
    const { cleanAir } = timeline;
    const lead: FoundPhase[] = cleanAir
      ? [{ run: run.index, phase: "background", ...cleanAir, why: "clean air before the aerosol" }]
      : [];
    const decays = findDecayWindows(run, counter, guide, timeline).map(
      ({ phase, fromS, toS, why }): FoundPhase => ({ run: run.index, phase, fromS, toS, why }),
    );
    return [...lead, ...decays];
  });
}
