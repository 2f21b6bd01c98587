import type { Band, Dropped, Refusal } from "./analysis.ts";
import { cleanChannel } from "./clean-channel.ts";
import { cleanRows } from "./clean-rows.ts";
import type { Readings } from "./readings.ts";
import { findTimeline, type RunTimeline } from "./run-timeline.ts";
import { bandColumns, LEAST_COVERAGE } from "./size-bands.ts";
import type { Counter, Run } from "./trial.ts";
import { byVisibleHalvings } from "./visible-halvings.ts";

/** A run cleaned, cut into bands and dated: what the bands are fitted from. */
export interface PreparedRun {
  readonly run: Run;
  readonly columns: readonly { readonly band: Band; readonly readings: Readings }[];
  readonly timeline: RunTimeline;
  /** The column that shows the most. */
  readonly guide: Readings | null;
  readonly dropped: readonly Dropped[];
  readonly refusals: readonly Refusal[];
}

/** Cleans a run's rows and columns and finds its timeline. */
export function prepareRun(run: Run, counter: Counter): PreparedRun {
  const cleaned = cleanRows(run.series);
  const dropped: Dropped[] = [...cleaned.dropped].map(([reason, count]) => ({
    run: run.index,
    channel: null,
    reason,
    count,
  }));
  const refusals: Refusal[] = [];
  const refuse = (band: string | null, code: Refusal["code"], message: string) =>
    refusals.push({ band, run: run.index, code, message });

  const tS = Float64Array.from(cleaned.rows, (row) => run.series.tS[row]!);
  const { columns: raw, uncovered } = bandColumns(counter, run.series.channels, cleaned.rows, tS);
  const columns = raw.map(({ band, column }) => {
    const channel = cleanChannel(column);
    for (const [reason, count] of channel.dropped) dropped.push({ run: run.index, channel: band.name, reason, count });
    return { band, readings: channel.readings };
  });
  for (const { name, coverage } of uncovered) {
    const percent = Math.round(100 * coverage);
    refuse(
      name,
      "band-not-covered",
      `the counter's bins cover ${percent} % of ${name} µm; ${100 * LEAST_COVERAGE} % are needed`,
    );
  }
  const all = byVisibleHalvings(columns.map(({ readings }) => readings));
  const timeline = findTimeline(run, counter, all);
  const reason = whyNoPhase(run, all, timeline);
  if (reason) refuse(null, reason.code, reason.message);
  return { run, columns, timeline, guide: all[0] ?? null, dropped, refusals };
}

/** Why a whole run can show no decay, null where it may. */
function whyNoPhase(
  run: Run,
  columns: readonly Readings[],
  { cycles }: RunTimeline,
): { code: Refusal["code"]; message: string } | null {
  if (run.role === "background") return null;
  if (cycles.length === 0) return { code: "no-peak", message: "the run holds no usable readings" };
  if (columns.every(({ values }) => values.every((v) => v === values[0]))) {
    return { code: "no-peak", message: "the readings never change" };
  }
  const fixed = run.windows.some(({ phase }) => phase === "total");
  if (run.role !== "full_log" || fixed || cycles.some(({ switchOn }) => switchOn !== null)) return null;
  const message =
    "no moment can be told at which the cleaner began to work: mark when it was switched on, or fix a window";
  return { code: "no-switch-on", message };
}
