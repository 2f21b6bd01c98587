import { METHOD_VERSION } from "../../analysis/method-version.ts";
import type { Connection } from "../../db/database.ts";
import { findPinnedResult } from "../../db/pinned-rows.ts";
import { listRuns } from "../../db/trials.ts";
import { channelWords } from "../pages/charts/channel-words.ts";
import { sizeOf } from "../pages/charts/chart.tsx";
import { DECAY_SIZE, decayPlot } from "../pages/charts/decay-plot.tsx";
import { drawRuns, type RunDrawing } from "../pages/trial/draw-runs.ts";
import { decayDrawing, leftOutOf } from "../pages/trial/drawn-runs.ts";
import { dropWords } from "../pages/trial/drop-words.ts";
import { ROLE_WORDS } from "../pages/trial/record-words.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import type { PinnedResult, PinnedTrial } from "../wire/pinned.ts";
import { type PlotPart, plot, wordsPart } from "./plot.tsx";
import type { Theme } from "./themes.ts";

/** What a post may have to load. */
const MOST_BYTES = 100_000;
/** Readings of all runs together, and runs, that mostly stay under it. */
const MOST_READINGS = 2700;
const MOST_RUNS = 8;
/** The height of clean air, in which nothing falls. */
const LOW = 170;

/** The readings of a pinned result's runs with what was fitted to them then, each under the other. */
export async function decayPicture(
  connection: Connection,
  result: PinnedResult,
  pinned: PinnedTrial,
  theme: Theme,
): Promise<string> {
  const { trial: id, revision, method_version: method, band } = pinned;
  const stored = await findPinnedResult(connection, id, revision, method);
  const analysis = JSON.parse(stored!.result.json) as AnalysisOut; // whoever read the pin has found it
  const { counters } = JSON.parse(stored!.revision.json) as { counters: { id: string; position?: unknown }[] };
  const runs = await listRuns(connection, id, revision);
  const drawings = await drawRuns(connection, { id, revision, counters, runs: runs.slice(0, MOST_RUNS) }, band);
  const picture = (count: number) => {
    const most = Math.min(900, Math.floor(MOST_READINGS / count));
    const parts = drawings.slice(0, count).flatMap((each) => {
      const { role, counter } = runs[each.n]!;
      const by = counters.length > 1 ? `, counter ${counter}` : "";
      const name = `Log ${each.n + 1}: ${ROLE_WORDS[role] ?? role}${by}`;
      const height = role === "background" ? LOW : DECAY_SIZE.heights[0];
      return [wordsPart(name, theme.ink), ...runParts(each, analysis, band, most, height)];
    });
    return plot({
      result,
      title: "its readings and the decays fitted to them",
      description: `Readings on a logarithmic axis over minutes after the first row, ${count} ${count === 1 ? "log" : "logs"}, with the decays that were fitted.`,
      from: `One test, ${id}, revision ${revision}, method ${method}; the interval is about this room and counter`,
      parts: [
        ...parts,
        ...(count < runs.length
          ? [wordsPart(`Drawn: ${count === 1 ? "log 1" : `logs 1 to ${count}`} of ${runs.length}.`)]
          : []),
        ...(method === METHOD_VERSION ? [] : [wordsPart(`Readings are left out as method ${METHOD_VERSION} has it.`)]),
      ],
      theme,
    });
  };
  // Many windows and marks take more room than readings do: then fewer logs are drawn.
  let count = drawings.length;
  let svg = picture(count);
  while (count > 1 && new TextEncoder().encode(svg).length > MOST_BYTES) svg = picture(--count);
  return svg;
}

function runParts(run: RunDrawing, analysis: AnalysisOut, band: string, most: number, height: number): PlotPart[] {
  if (run.drawn === null) return [wordsPart(`Not drawn. ${run.why}`)];
  const made = decayPlot({ id: `run-${run.n}`, ...decayDrawing(analysis, band, run.drawn) });
  const out = leftOutOf(analysis, run.drawn).map((each) => dropWords(...each));
  const leftOut = out.length > 0 ? ` Left out: ${out.join(", ")}.` : "";
  const dots = channelWords(run.drawn.channel);
  if (made === null) return [wordsPart(`No reading of ${dots} lies above zero.${leftOut}`)];
  const size = sizeOf("wide", height, DECAY_SIZE);
  return [{ height: size.height, drawn: made.draw(size, most) }, wordsPart(`Dots: ${dots}. ${made.legend}${leftOut}`)];
}
