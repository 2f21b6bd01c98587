import { AnalysisError } from "./analysis-error.ts";
import { type DecayStart, findDecayStart, leavesCeiling, leavesTop } from "./decay-start.ts";
import { logLinearFit } from "./log-linear-fit.ts";
import { median, runningMedian5 } from "./median.ts";
import { firstAtOrAfter, type Readings, readingsBetween, unclipped } from "./readings.ts";
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
  /** It begins where the counter left its ceiling. */
  readonly afterCeiling: boolean;
  /** Where the submitter fixed it: the automatic window of that phase, if there is one, whose k then stands beside. */
  readonly automatic: { readonly fromS: number; readonly toS: number } | null;
}

/**
 * The decays one channel shows in a run of this timeline. Windows fixed by the submitter replace the automatic ones of
 * their phase.
 */
export function findDecayWindows(run: Run, counter: Counter, readings: Readings, timeline: RunTimeline): PhaseWindow[] {
  const automatic = timeline.cycles.flatMap((cycle) => cycleWindows(run, counter, readings, cycle));
  const fixed = run.windows.flatMap(({ phase, n, fromS, toS }): PhaseWindow[] => {
    if (phase === "background") return [];
    const replaced = automatic.filter((window) => window.phase === phase)[n] ?? null;
    const why = "fixed by the submitter";
    return [{ phase, fromS, toS, why, byHand: true, afterCeiling: false, automatic: replaced }];
  });
  const fixedPhases = new Set(fixed.map(({ phase }) => phase));
  return [...automatic.filter(({ phase }) => !fixedPhases.has(phase)), ...fixed];
}

function cycleWindows(run: Run, counter: Counter, readings: Readings, cycle: Cycle): PhaseWindow[] {
  const { switchOn } = cycle;
  const wait = (fromS: number, toS: number) =>
    settlingTimeS(counter, readings.quantity, roughK(readings, fromS, toS), readings.intervalS);
  const fromPeak = (toS: number, phase: PhaseWindow["phase"], fromS = cycle.fromS) => {
    const decay = findDecayStart(readings, fromS, toS, cycle.feedEndS);
    if (decay === null) return null;
    const settledS = decay.startS + wait(decay.startS, toS);
    const topS = phase === "total" ? leavesTop(readings, decay.peak, decay.startS, toS) : decay.startS;
    const aboveS = topS - decay.startS;
    if (!(aboveS > PLATEAU * TOP_LN * (3600 / roughK(readings, topS, toS)))) return { ...decay, startS: settledS };
    // A slow counter has spent a third of its wait by the time it shows 5 % less.
    return { ...decay, startS: Math.max(settledS, topS + (2 / 3) * wait(topS, toS)) };
  };
  const windows: PhaseWindow[] = [];
  const add = (phase: PhaseWindow["phase"], start: Start | null, end: { toS: number; why: string }) => {
    if (start === null || !(start.startS < end.toS)) return;
    const { afterCeiling } = start;
    const { fromS, toS, cut } = besideGap(readings, start.startS, end.toS);
    const why = cut ?? `${start.why}, ${end.why}`;
    windows.push({ phase, fromS, toS, why, byHand: false, afterCeiling, automatic: null });
  };
  if (run.role === "natural" && switchOn === null) {
    add("natural", fromPeak(cycle.toS, "natural"), { toS: cycle.toS, why: "to the end" });
  }
  const fed = switchOn?.marked
    ? fedUnderCleaner(readings, switchOn.atS, fromPeak(cycle.toS, "total", switchOn.atS))
    : null;
  if (run.role !== "total" && switchOn !== null && fed === null) {
    const toS = switchOn.atS - 2 * switchOn.uS;
    add("natural", fromPeak(toS, "natural"), {
      toS,
      why: run.role === "natural" ? "until it broke off" : "until the cleaner came on",
    });
  }
  if (run.role !== "natural" && switchOn !== null) {
    const start = fed ?? afterSwitch(readings, cycle, wait);
    add("total", start, endOfTotal(readings, start.startS, cycle.toS));
  } else if (run.role === "total") {
    const start = fromPeak(cycle.toS, "total");
    if (start) add("total", start, endOfTotal(readings, start.startS, cycle.toS));
  }
  return windows;
}

/** An exponential leaves its top 5 % in −ln 0.95/k; twice that is a plateau: the cleaner took hold later. */
const TOP_LN = 0.0513;
const PLATEAU = 2;

/** The peak after a switch-on that came before it: aerosol was fed under the running cleaner, no natural decay came first. */
function fedUnderCleaner(readings: Readings, atS: number, decay: (DecayStart & Start) | null): Start | null {
  const first = firstAtOrAfter(readings.tS, atS);
  const before = median(readings.values.subarray(first, first + 5));
  return decay?.rises && decay.peak > 1.5 * before ? decay : null;
}

interface Start {
  readonly startS: number;
  readonly why: string;
  readonly afterCeiling: boolean;
}

function afterSwitch(readings: Readings, cycle: Cycle, wait: (fromS: number, toS: number) => number): Start {
  const { atS, uS, marked } = cycle.switchOn!;
  // A reading averages what came since the last one, so the first after the switch still holds air from before it.
  const startS = atS + Math.max(2 * uS + wait(atS + 2 * uS, cycle.toS), readings.intervalS);
  const freeS = leavesCeiling(readings, startS, cycle.toS);
  if (freeS !== null) return { startS: freeS, why: "after the counter left its ceiling", afterCeiling: true };
  return {
    startS,
    why: marked ? "after the cleaner_on mark" : "after the switch-on seen in the log",
    afterCeiling: false,
  };
}

/**
 * Total stops at the first lasting fall below max(1 % of the start, 8 steps of a mass counter), and before a climb by a
 * fifth of the start (and eight times the readings' scatter), for under a cleaner only new aerosol makes it climb.
 */
function endOfTotal(readings: Readings, fromS: number, toS: number): { toS: number; why: string } {
  const { tS, values, stepQ, quantity } = readingsBetween(readings, fromS, toS);
  const smooth = runningMedian5(values);
  const start = median(smooth.slice(0, 3));
  // A counter that begins under 16 steps would otherwise end before it began.
  const least = Math.max(0.01 * start, quantity === "mass" ? Math.min(8 * stepQ, 0.5 * start) : 0);
  const early = Math.ceil(values.length / 4);
  const scatter = 1.4826 * median(values.slice(0, early).map((v, i) => Math.abs(v - smooth[i]!)));
  const climb = Math.max(0.2 * start, 8 * stepQ, 8 * scatter);
  let lowest = 0;
  for (let i = 1; i < smooth.length; i++) {
    if (smooth[i]! < smooth[lowest]!) lowest = i;
    if (smooth[i]! - smooth[lowest]! > climb) return { toS: tS[lowest]!, why: "until it rose again" };
    if (smooth[i]! < least && median(values.slice(i)) < least) return { toS: tS[i - 1]!, why: "down to its floor" };
  }
  return { toS, why: "to the end" };
}

/** A gap of this many intervals, longer than all the rest of a window: a clock that jumped, or another occasion. */
const GAP_INTERVALS = 20;

/** The longer side of such a gap, the window itself where it has none. */
function besideGap(readings: Readings, fromS: number, toS: number): { fromS: number; toS: number; cut: string | null } {
  const { tS } = readingsBetween(readings, fromS, toS);
  const last = tS.at(-1) ?? toS;
  for (let i = 1; i < tS.length; i++) {
    const [before, after] = [tS[i - 1]!, tS[i]!];
    const gap = after - before;
    if (gap <= GAP_INTERVALS * readings.intervalS || gap <= last - tS[0]! - gap) continue;
    return before - tS[0]! >= last - after
      ? { fromS, toS: before, cut: "until a gap longer than all the rest" }
      : { fromS: after, toS, cut: "after a gap longer than all the rest" };
  }
  return { fromS, toS, cut: null };
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
