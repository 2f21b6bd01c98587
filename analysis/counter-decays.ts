import type { Band, FittedDecay, Refusal } from "./analysis.ts";
import { AnalysisError, type RefusalCode } from "./analysis-error.ts";
import { assumedNaturalLoss } from "./assumed-natural-loss.ts";
import { backgroundFor, pooledLevel } from "./background-for-run.ts";
import {
  naturalPriorFromReading,
  naturalPriorFromTotal,
  tailLevel,
  totalPriorFromNatural,
  totalPriorFromReading,
  totalPriorFromTail,
} from "./background-priors.ts";
import type { BandRun } from "./band-run.ts";
import { consensus } from "./consensus.ts";
import { type DecayFit, fitDecay } from "./decay-fit.ts";
import type { BackgroundPrior } from "./decay-model.ts";
import { findDecayWindows, type PhaseWindow } from "./decay-windows.ts";
import { type LogLinearFit, logLinearFit } from "./log-linear-fit.ts";
import { type Readings, readingsBetween, unclipped } from "./readings.ts";
import type { Counter, Room, Run } from "./trial.ts";

/** A decay that was fitted, and what the fit was made from. */
export interface BandDecay {
  readonly run: Run;
  readonly window: PhaseWindow;
  readonly readings: Readings;
  /** All readings of the run. */
  readonly all: Readings;
  readonly fit: DecayFit;
  readonly reported: FittedDecay;
  /** What was known of its background, and u of the reading that came from (null: none was read). */
  readonly prior: BackgroundPrior;
  readonly uReading: number | null;
  /** The readings fall lower than the background reading allows. */
  readonly backgroundInconsistent: boolean;
  /** k of the automatic window where the submitter fixed another. */
  readonly automaticKPerH: number | null;
}

export interface CounterDecays {
  readonly totals: readonly BandDecay[];
  readonly naturals: readonly BandDecay[];
  readonly refusals: readonly Refusal[];
}

/** Distinct readings a decay needs (AC-1, from memory): nine, five for the sizes of its pollen band. */
const LEAST_READINGS = 9;
const LEAST_READINGS_LARGE = 5;
const LARGE_UM = 5;

/**
 * Fits every decay of one band on one counter. With a reading of the background natural comes first, for the floor under
 * the cleaner follows from it; without one total comes first, for its tail bounds the floor.
 */
export function fitCounterDecays(counter: Counter, band: Band, runs: readonly BandRun[], room: Room): CounterDecays {
  const refusals: Refusal[] = [];
  const least = (band.fromUm ?? 0) >= LARGE_UM ? LEAST_READINGS_LARGE : LEAST_READINGS;
  const candidates = runs.flatMap((bandRun) => {
    const reading = backgroundFor(bandRun, runs);
    return findDecayWindows(bandRun.run, counter, bandRun.readings, bandRun.timeline).map((window) => ({
      run: bandRun.run,
      window,
      reading,
      all: bandRun.readings,
      readings: unclipped(readingsBetween(bandRun.readings, window.fromS, window.toS)),
      automatic:
        window.automatic && unclipped(readingsBetween(bandRun.readings, window.automatic.fromS, window.automatic.toS)),
    }));
  });
  type Candidate = (typeof candidates)[number];

  const fitAll = (
    phase: "natural" | "total",
    priorFor: (c: Candidate) => { prior: BackgroundPrior; inconsistent?: (kPerH: number) => boolean },
  ): BandDecay[] =>
    candidates
      .filter((c) => c.window.phase === phase)
      .flatMap((c) => {
        try {
          if (c.readings.tS.length < least) throw new AnalysisError("too-short", tooShort(c.readings.tS.length, least));
          const { prior, inconsistent } = priorFor(c);
          const fit = fitDecay(c.readings, prior);
          if (phase === "total") refuseUnlessHalving(fit);
          const reported = asReported(counter, c.run, c.window, c.readings, c.reading?.value ?? 0, fit);
          const backgroundInconsistent = inconsistent?.(fit.kPerH.value) ?? false;
          const automaticKPerH = c.automatic && kOrNull(c.automatic, prior);
          return [
            { ...c, fit, reported, prior, uReading: c.reading?.u ?? null, backgroundInconsistent, automaticKPerH },
          ];
        } catch (error) {
          if (!(error instanceof AnalysisError)) throw error;
          refusals.push(refusal(band, c.run, error.code, `${phase} decay (${c.window.why}): ${error.message}`));
          return [];
        }
      });

  const naturalPerH = (naturals: readonly BandDecay[]) =>
    naturals.length > 0
      ? consensus(naturals.map((d) => d.fit.kPerH)).estimate.value
      : assumedNaturalLoss(band, runs[0]!.readings.quantity, room).value;

  if (candidates.every((c) => c.reading !== null)) {
    const naturals = fitAll("natural", (c) => ({ prior: naturalPriorFromReading(c.reading!, c.readings) }));
    const kN = naturalPerH(naturals);
    const totals = fitAll("total", (c) => totalPriorFromReading(c.reading!, kN, c.readings));
    return { totals, naturals, refusals };
  }
  const totals = fitAll("total", (c) => ({ prior: totalPriorFromTail(c.readings) }));
  // By mass balance what bounds the background is tail times k.
  const lowest = totals.reduce<{ tail: number; kPerH: number } | null>((low, d) => {
    const own = { tail: tailLevel(d.readings), kPerH: d.fit.kPerH.value };
    return low === null || own.tail * own.kPerH < low.tail * low.kPerH ? own : low;
  }, null);
  const naturals = fitAll("natural", (c) => ({ prior: naturalPriorFromTotal(c.readings, lowest) }));
  if (naturals.length === 0 || totals.length === 0) return { totals, naturals, refusals };
  const seen = pooledLevel(naturals.map(({ fit }) => fit.background));
  // Total again, once: what the natural decay says of the background bounds the floor under the cleaner better than the tail.
  const kN = naturalPerH(naturals);
  refusals.splice(0, refusals.length, ...refusals.filter(({ message }) => !message.startsWith("total decay")));
  const again = fitAll("total", (c) => ({ prior: totalPriorFromNatural(seen, kN, c.readings) }));
  return { totals: again, naturals, refusals };
}

function refuseUnlessHalving({ kPerH, windowH }: DecayFit): void {
  if (!(kPerH.value > 0)) throw new AnalysisError("not-decaying");
  if (kPerH.value * windowH < Math.LN2) throw new AnalysisError("less-than-one-halving");
}

function asReported(
  counter: Counter,
  run: Run,
  window: PhaseWindow,
  readings: Readings,
  givenBackground: number,
  fit: DecayFit,
): FittedDecay {
  const logLinear = besideIt(readings, givenBackground);
  return {
    run: run.index,
    counter: counter.id,
    kPerH: fit.kPerH,
    amplitude: fit.amplitude,
    background: fit.background,
    window: { fromS: readings.tS[0]!, toS: readings.tS.at(-1)!, n: readings.tS.length, why: window.why },
    logLinear: logLinear && { kPerH: logLinear.kPerH, uPerH: logLinear.uPerH, background: givenBackground },
  };
}

/** k of a window that is only shown for comparison: where it cannot be fitted nothing is refused. */
function kOrNull(readings: Readings, prior: BackgroundPrior): number | null {
  try {
    return fitDecay(readings, prior).kPerH.value;
  } catch (error) {
    if (error instanceof AnalysisError) return null;
    throw error;
  }
}

function besideIt({ tS, values }: Readings, background: number): LogLinearFit | null {
  try {
    return logLinearFit(
      tS.map((t) => (t - tS[0]!) / 3600),
      values,
      background,
    );
  } catch (error) {
    if (error instanceof AnalysisError) return null;
    throw error;
  }
}

function tooShort(n: number, least: number): string {
  return `${n} distinct readings are left in the window; ${least} are needed: log longer, or at a shorter interval`;
}

function refusal(band: Band, run: Run, code: RefusalCode, message: string): Refusal {
  return { band: band.name, run: run.index, code, message };
}
