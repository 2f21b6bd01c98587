import { besideGap } from "./beside-gap.ts";
import { type DecayStart, findDecayStart, leavesCeiling, leavesTop } from "./decay-start.ts";
import { endOfTotal } from "./end-of-total.ts";
import type { MarkDispute } from "./mark-disputes.ts";
import type { Cycle } from "./marked-cycles.ts";
import { median } from "./median.ts";
import { firstAtOrAfter, type Readings } from "./readings.ts";
import { roughKPerH } from "./rough-rate.ts";
import type { RunTimeline } from "./run-timeline.ts";
import { settlingTimeS } from "./settling-time.ts";
import type { SpeedChange } from "./speed-change.ts";
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
  /** Where the decay breaks: an automatic window ends before it, one fixed by hand may hold it. */
  readonly speedChange: SpeedChange | null;
  /** Marks of the run that its readings contradict. */
  readonly disputes: readonly MarkDispute[];
}

/**
 * The decays one channel shows in a run of this timeline. Windows fixed by hand replace the automatic ones of
 * their phase.
 */
export function findDecayWindows(run: Run, counter: Counter, readings: Readings, timeline: RunTimeline): PhaseWindow[] {
  const { cycles, disputes } = timeline;
  const automatic = cycles.flatMap((cycle) =>
    cycleWindows(run, counter, readings, cycle).map((window): PhaseWindow => ({ ...window, disputes })),
  );
  const fixed = run.windows.flatMap(({ phase, n, fromS, toS }): PhaseWindow[] => {
    if (phase === "background") return [];
    const replaced = automatic.filter((window) => window.phase === phase)[n] ?? null;
    const why = "fixed by hand";
    const breaks = phase === "total" ? cycles.map(({ speedChange }) => speedChange) : [];
    const speedChange = breaks.find((change) => change && change.atS > fromS && change.atS < toS) ?? null;
    const fixedWindow = { phase, fromS, toS, why, byHand: true, afterCeiling: false };
    return [{ ...fixedWindow, automatic: replaced, speedChange, disputes }];
  });
  const fixedPhases = new Set(fixed.map(({ phase }) => phase));
  return [...automatic.filter(({ phase }) => !fixedPhases.has(phase)), ...fixed];
}

function cycleWindows(run: Run, counter: Counter, readings: Readings, cycle: Cycle): Omit<PhaseWindow, "disputes">[] {
  const { switchOn } = cycle;
  const wait = (fromS: number, toS: number) =>
    settlingTimeS(counter, readings.quantity, roughKPerH(readings, fromS, toS), readings.intervalS);
  const fromPeak = (toS: number, phase: PhaseWindow["phase"], fromS = cycle.fromS) => {
    const decay = findDecayStart(readings, fromS, toS, cycle.feedEndS);
    if (decay === null) return null;
    const settledS = decay.startS + wait(decay.startS, toS);
    const topS = phase === "total" ? leavesTop(readings, decay.peak, decay.startS, toS) : decay.startS;
    const aboveS = topS - decay.startS;
    if (!(aboveS > 0 && aboveS > PLATEAU * TOP_LN * (3600 / roughKPerH(readings, topS, toS))))
      return { ...decay, startS: settledS };
    // A slow counter has spent a third of its wait by the time it shows 5 % less.
    return { ...decay, startS: Math.max(settledS, topS + (2 / 3) * wait(topS, toS)) };
  };
  const windows: Omit<PhaseWindow, "disputes">[] = [];
  const add = (phase: PhaseWindow["phase"], start: Start | null, end: { toS: number; why: string }) => {
    if (start === null || !(start.startS < end.toS)) return;
    const { afterCeiling } = start;
    const { fromS, toS, cut } = besideGap(readings, start.startS, end.toS);
    const why = cut ?? `${start.why}, ${end.why}`;
    const speedChange = phase === "total" ? cycle.speedChange : null;
    windows.push({ phase, fromS, toS, why, byHand: false, afterCeiling, automatic: null, speedChange });
  };
  if (run.role === "natural" && switchOn === null) {
    add("natural", fromPeak(cycle.toS, "natural"), { toS: cycle.toS, why: "to the end" });
  }
  const fed =
    switchOn?.marked && switchOn.seenS === null
      ? fedUnderCleaner(readings, switchOn.atS, fromPeak(cycle.toS, "total", switchOn.atS))
      : null;
  if (run.role !== "total" && switchOn !== null && fed === null) {
    const toS = offUntilS(switchOn);
    add("natural", fromPeak(toS, "natural"), {
      toS,
      why: run.role === "natural" ? "until it broke off" : "until the cleaner came on",
    });
  }
  if (run.role !== "natural" && switchOn !== null) {
    const start = fed ?? afterSwitch(readings, cycle, wait);
    add("total", start, endOfTotal(readings, start.startS, cycle));
  } else if (run.role === "total") {
    const start = fromPeak(cycle.toS, "total");
    if (start) add("total", start, endOfTotal(readings, start.startS, cycle));
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
  const switchOn = cycle.switchOn!;
  const onS = onFromS(switchOn);
  // A reading averages what came since the last one, so the first after the switch still holds air from before it.
  const startS = Math.max(onS + wait(onS, cycle.toS), switchOn.atS + readings.intervalS);
  const freeS = leavesCeiling(readings, startS, cycle.toS);
  if (freeS !== null) return { startS: freeS, why: "after the counter left its ceiling", afterCeiling: true };
  return {
    startS,
    why: whyOn(switchOn),
    afterCeiling: false,
  };
}

type KnownSwitchOn = NonNullable<Cycle["switchOn"]>;

/** Until when the cleaner was surely off: where mark and readings disagree, what lies between them is neither decay's. */
function offUntilS({ atS, uS, seenS }: KnownSwitchOn): number {
  return seenS === null ? atS - 2 * uS : Math.min(atS, seenS - 2 * uS);
}

function onFromS({ atS, uS, seenS }: KnownSwitchOn): number {
  return seenS === null ? atS + 2 * uS : Math.max(atS, seenS + 2 * uS);
}

function whyOn({ atS, marked, seenS }: KnownSwitchOn): string {
  if (!marked) return "after the switch-on seen in the log";
  if (seenS === null) return "after the mark “cleaner on”";
  const apartS = Math.round(Math.abs(seenS - atS));
  return `after the mark “cleaner on” and the switch-on seen in the log, ${apartS} s ${seenS > atS ? "after" : "before"} it`;
}
