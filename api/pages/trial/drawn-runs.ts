import { cleanChannel } from "../../../analysis/clean-channel.ts";
import { cleanRows } from "../../../analysis/clean-rows.ts";
import { bandColumns } from "../../../analysis/size-bands.ts";
import type { Counter, Run } from "../../../analysis/trial.ts";
import type { AnalysisOut } from "../../wire/analysis.ts";
import type { DecayDrawing } from "../charts/decay-drawing.ts";
import { BAND_WORDS } from "../figures.ts";

/** One run as it is drawn in one band: what the analysis made of its rows, computed again by the analysis' own steps. */
export interface DrawnRun {
  readonly run: Run;
  readonly tS: Float64Array;
  readonly channel: { readonly id: string; readonly unit: string; readonly values: Float64Array };
  /** Indices of the readings that were cleaned away, held ones apart: those repeat the reading before and are not drawn. */
  readonly leftOut: readonly number[];
  /** How many rows and readings were left out of this band, by reason. */
  readonly reasons: ReadonlyMap<string, number>;
}

/** A run in a band; null where its counter has no such band. */
export function drawnRun(run: Run, counter: Counter, band: string): DrawnRun | null {
  const cleaned = cleanRows(run.series);
  const times = Float64Array.from(cleaned.rows, (row) => run.series.tS[row]!);
  const { columns } = bandColumns(counter, run.series.channels, cleaned.rows, times);
  const column = columns.find((each) => each.band.name === band)?.column;
  if (column === undefined) return null;
  const { readings, dropped } = cleanChannel(column);
  const kept = new Set(readings.tS);
  const tS = Float64Array.from(times);
  const leftOut: number[] = [];
  let before = Number.NaN;
  for (let i = 0; i < tS.length; i++) {
    if (kept.has(tS[i]!)) before = column.values[i]!;
    else if (dropped.has("held") && column.values[i] === before) tS[i] = Number.NaN;
    else leftOut.push(i);
  }
  const reasons = new Map([...cleaned.dropped, ...dropped]);
  const values = column.values;
  return { run, tS, channel: { ...channelOf(run, counter, band), values }, leftOut, reasons };
}

type Analysis = Pick<AnalysisOut, "results" | "naturals" | "phases" | "dropped">;

/** A run with what an analysis fitted to it in a band. */
export function decayDrawing(analysis: Analysis, band: string | undefined, it: DrawnRun): Omit<DecayDrawing, "id"> {
  const { run, tS, channel, leftOut } = it;
  const named = (each: { band: { name: string } }) => each.band.name === band;
  const result = analysis.results.find(named);
  const natural = result?.natural.counters ?? analysis.naturals.find(named)?.counters ?? [];
  const here = (each: { run: number }) => each.run === run.index;
  return {
    tS,
    channel,
    phases: analysis.phases.filter(here),
    natural: natural.filter(here),
    total: (result?.total.counters ?? []).filter(here),
    marks: run.marks,
    leftOut,
  };
}

/** What was left out of a run and why, what its file was read without included. */
export function leftOutOf(
  analysis: Analysis,
  { run, reasons }: DrawnRun,
): (readonly [reason: string, count: number])[] {
  const fromFile = analysis.dropped.filter(({ run: n, channel, reason }) => {
    return n === run.index && channel === null && !reasons.has(reason) && !NO_READING.has(reason);
  });
  return [...reasons, ...fromFile.map(({ reason, count }) => [reason, count] as const)];
}

/** Lines of a file that never were readings. */
const NO_READING = new Set(["blank-line", "comment", "title-line"]);

/** A band's name and unit: a standard band is in particles per cm³, or in what the channels it is made of are in. */
function channelOf(run: Run, counter: Counter, band: string): { id: string; unit: string } {
  const { channels } = run.series;
  const channel = channels.find(({ id }) => `${counter.id}/${id}` === band);
  if (channel) return { id: channel.id, unit: channel.unit };
  if (band === "mass") return { id: BAND_WORDS.mass!, unit: "ug/m3" };
  return { id: BAND_WORDS[band] ?? band, unit: channels.find(({ quantity }) => quantity === "raw")?.unit ?? "1/cm3" };
}
