import { AnalysisError } from "./analysis-error.ts";
import { findDecayStart } from "./decay-start.ts";
import { logLinearFit } from "./log-linear-fit.ts";
import { median, runningMedian5 } from "./median.ts";
import { type Readings, readingsBetween, unclipped } from "./readings.ts";
import type { Cycle, RunTimeline } from "./run-timeline.ts";
import { settlingTimeS } from "./settling-time.ts";
import type { Counter, Run } from "./trial.ts";

/** One decay to be fitted: a span of one run as one of its channels sees it. */
export interface PhaseWindow {
  readonly phase: "natural" | "total";
  readonly fromS: number;
  readonly toS: number;
  readonly why: string;
  readonly byHand: boolean;
}

/**
 * The decays one channel shows in a run of this timeline. Windows fixed by the submitter replace the automatic ones of
 * their phase.
 */
export function findDecayWindows(run: Run, counter: Counter, readings: Readings, timeline: RunTimeline): PhaseWindow[] {
  const automatic = timeline.cycles.flatMap((cycle) => cycleWindows(run, counter, readings, cycle));
  const fixed = run.windows.flatMap(({ phase, fromS, toS }): PhaseWindow[] =>
    phase === "background" ? [] : [{ phase, fromS, toS, why: "fixed by the submitter", byHand: true }],
  );
  const fixedPhases = new Set(fixed.map(({ phase }) => phase));
  return [...automatic.filter(({ phase }) => !fixedPhases.has(phase)), ...fixed];
}

function cycleWindows(run: Run, counter: Counter, readings: Readings, cycle: Cycle): PhaseWindow[] {
  const { switchOn } = cycle;
  const wait = (fromS: number, toS: number) =>
    settlingTimeS(counter, readings.quantity, roughK(readings, fromS, toS), readings.intervalS);
  const windows: PhaseWindow[] = [];
  const fromPeak = (toS: number) => {
    const decay = findDecayStart(readings, cycle.fromS, toS, cycle.feedEndS);
    return decay && { ...decay, startS: decay.startS + wait(decay.startS, toS) };
  };

  const naturalEndS = switchOn === null ? cycle.toS : switchOn.atS - 2 * switchOn.uS;
  if (run.role === "natural" || (run.role === "full_log" && switchOn !== null)) {
    const decay = fromPeak(naturalEndS);
    if (decay && decay.startS < naturalEndS) {
      const until =
        switchOn === null ? "to the end" : `until ${run.role === "natural" ? "it broke off" : "the cleaner came on"}`;
      windows.push({
        phase: "natural",
        fromS: decay.startS,
        toS: naturalEndS,
        why: `${decay.why}, ${until}`,
        byHand: false,
      });
    }
  }
  if (run.role === "total" || run.role === "full_log") {
    const start =
      switchOn === null ? (run.role === "total" ? fromPeak(cycle.toS) : null) : afterSwitch(readings, cycle, wait);
    if (start) {
      const { toS, why } = endOfTotal(readings, start.startS, cycle.toS);
      windows.push({ phase: "total", fromS: start.startS, toS, why: `${start.why}, ${why}`, byHand: false });
    }
  }
  return windows;
}

function afterSwitch({ tS, clipped, intervalS }: Readings, cycle: Cycle, wait: (fromS: number, toS: number) => number) {
  const { atS, uS, marked } = cycle.switchOn!;
  // A reading averages what came since the last one, so the first after the switch still holds air from before it.
  let startS = atS + Math.max(2 * uS + wait(atS + 2 * uS, cycle.toS), intervalS);
  let why = marked ? "after the cleaner_on mark" : "after the switch-on seen in the log";
  for (let i = tS.length - 1; i >= 0 && tS[i]! >= startS; i--) {
    if (clipped[i] === 1 && tS[i]! < cycle.toS) {
      startS = tS[i + 1] ?? tS[i]!;
      why = "after the counter left its ceiling";
      break;
    }
  }
  return { startS, why };
}

/** Total stops at the first lasting fall below max(1 % of the start, 8 steps of a mass counter). */
function endOfTotal(readings: Readings, fromS: number, toS: number): { toS: number; why: string } {
  const { tS, values, stepQ, quantity } = readingsBetween(readings, fromS, toS);
  const smooth = runningMedian5(values);
  const least = Math.max(0.01 * median(smooth.slice(0, 3)), quantity === "mass" ? 8 * stepQ : 0);
  for (let i = 1; i < smooth.length; i++) {
    if (smooth[i]! < least && median(values.slice(i)) < least) return { toS: tS[i - 1]!, why: "down to its floor" };
  }
  return { toS, why: "to the end" };
}

/** k of the readings in a span to one or two digits, 0 where it cannot be told. */
function roughK(readings: Readings, fromS: number, toS: number): number {
  const { tS, values } = unclipped(readingsBetween(readings, fromS, toS));
  try {
    return logLinearFit(
      tS.map((t) => t / 3600),
      values,
    ).kPerH;
  } catch (error) {
    if (error instanceof AnalysisError) return 0;
    throw error;
  }
}
