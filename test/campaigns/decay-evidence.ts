import type { BandResult } from "../../analysis/analysis.ts";
import {
  naturalPriorFromReading,
  naturalPriorFromTotal,
  tailLevel,
  totalPriorFromNatural,
  totalPriorFromReading,
  totalPriorFromTail,
} from "../../analysis/background-priors.ts";
import { type BackgroundReading, readBackground } from "../../analysis/clean-air.ts";
import { consensus } from "../../analysis/consensus.ts";
import type { BackgroundPrior } from "../../analysis/decay-model.ts";
import { prepareRun } from "../../analysis/prepare-run.ts";
import { type Readings, readingsBetween, unclipped } from "../../analysis/readings.ts";
import { leadReading } from "../../analysis/run-timeline.ts";
import type { Occasion } from "./occasion.ts";

/** One decay of the judged band as other fits than the engine's can use it. */
export interface DecayEvidence {
  readonly counter: string;
  readonly phase: "natural" | "total";
  readonly readings: Readings;
  readonly prior: BackgroundPrior;
  readonly backgroundReading: BackgroundReading | null;
}

/** What was read of the decays: in the engine's windows where it gave a result, else in the true ones. */
export function decayEvidence({ trial, band, decays }: Occasion, result: BandResult | undefined): DecayEvidence[] {
  const columns = trial.runs.map((run) => {
    const prepared = prepareRun(run, trial.counters.find(({ id }) => id === run.counter)!);
    const readings = prepared.columns.find((column) => column.band.name === band)?.readings ?? null;
    return { run, readings, timeline: prepared.timeline };
  });
  const backgroundOf = (counter: string): BackgroundReading | null => {
    const own = columns.filter(({ run, readings }) => run.counter === counter && readings !== null);
    const background = own.find(({ run }) => run.role === "background")?.readings;
    if (background) return readBackground(background, background.tS[0]! + 5, background.tS.at(-1)!);
    return (
      own.map(({ run, readings, timeline }) => leadReading(run, readings!, timeline)).find((lead) => lead !== null) ??
      null
    );
  };
  const windows = result
    ? [
        ...result.total.decays.map((decay) => ({ ...decay, ...decay.window, phase: "total" as const })),
        ...result.natural.decays.map((decay) => ({ ...decay, ...decay.window, phase: "natural" as const })),
      ]
    : decays;
  const cut = windows.flatMap(({ run: index, phase, fromS, toS }) => {
    const column = columns.find(({ run }) => run.index === index);
    if (!column?.readings || phase === "background") return [];
    const readings = unclipped(readingsBetween(column.readings, fromS, toS));
    return [{ counter: column.run.counter, phase, readings }];
  });
  const kTotal = result?.total.kPerH.value ?? 5;
  const kNatural = (counter: string) => {
    const own = result?.natural.decays.filter((decay) => decay.counter === counter).map(({ kPerH }) => kPerH) ?? [];
    return own.length > 0 ? consensus(own).estimate.value : (result?.natural.kPerH.value ?? 0.5);
  };
  return cut.map((decay) => {
    const reading = backgroundOf(decay.counter);
    const tails = cut
      .filter((c) => c.phase === "total" && c.counter === decay.counter)
      .map((c) => tailLevel(c.readings));
    const lowest = tails.length > 0 ? { tail: Math.min(...tails), kPerH: kTotal } : null;
    const seen = result?.natural.decays.find(({ counter }) => counter === decay.counter)?.background ?? null;
    const prior = priorOf(decay, reading, kNatural(decay.counter), lowest, seen);
    return { ...decay, backgroundReading: reading, prior };
  });
}

function priorOf(
  { phase, readings }: Pick<DecayEvidence, "phase" | "readings">,
  reading: BackgroundReading | null,
  kNatural: number,
  lowest: { tail: number; kPerH: number } | null,
  seen: { value: number; u: number } | null,
): BackgroundPrior {
  if (phase === "natural") {
    return reading ? naturalPriorFromReading(reading, readings) : naturalPriorFromTotal(readings, lowest);
  }
  if (reading) return totalPriorFromReading(reading, kNatural, readings).prior;
  return seen ? totalPriorFromNatural(seen, kNatural, readings) : totalPriorFromTail(readings);
}
