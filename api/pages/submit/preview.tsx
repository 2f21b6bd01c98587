import type { Channel } from "../../../analysis/trial.ts";
import type { AnalysisOut } from "../../wire/analysis.ts";
import { DecayChart } from "../charts/decay-chart.tsx";
import type { FlowUnit } from "../reader.ts";
import { ColumnsRead } from "./columns-read.tsx";
import type { FormColumn } from "./form-columns.ts";
import type { MarkEvent, Slot } from "./form-fields.ts";
import type { FieldComplaint } from "./form-reader.ts";
import { PreviewResult } from "./preview-result.tsx";

/** A run as the preview draws it: the log of a slot, or (slot null) the natural decay of an earlier trial. */
export interface PreviewRun {
  readonly run: number;
  readonly slot: Slot | null;
  readonly tS: Float64Array;
  readonly channels: readonly Channel[];
  readonly marks: readonly { readonly event: MarkEvent; readonly tS: number }[];
}

/** The columns of a slot's log as the form has them: shown for correction even where the log could not be read. */
export interface PreviewColumns {
  readonly slot: Slot;
  /** Of the file. */
  readonly name: string;
  readonly columns: readonly FormColumn[];
  /** What the form says of dates in doubt: blank, dmy or mdy. */
  readonly dayMonth: string;
}

export interface PreviewProps {
  readonly flow: FlowUnit;
  /** What the runs say, with or without a result; null where they could not be analysed. */
  readonly analysis: Pick<AnalysisOut, "results" | "naturals" | "refusals" | "phases" | "dropped"> | null;
  /** Whether the room's size is known: without it there are rates, and no flow. */
  readonly isSized: boolean;
  readonly runs: readonly PreviewRun[];
  readonly columns: readonly PreviewColumns[];
  readonly complaints: readonly FieldComplaint[];
}

/** What the log says so far, to be corrected: inside `<div id="preview">`, made by the server or by the page's script. */
export function Preview({ flow, analysis, isSized, runs, columns, complaints }: PreviewProps) {
  return (
    <>
      {analysis && <PreviewResult flow={flow} analysis={analysis} isSized={isSized} runs={runs} />}
      {analysis && runs.map((run) => <RunChart analysis={analysis} run={run} />)}
      {analysis && <PhasesFound phases={analysis.phases} runs={runs.length} />}
      {columns.map((each) => (
        <ColumnsRead {...each} complaints={complaints} open={analysis === null} />
      ))}
    </>
  );
}

const PHASE_WORDS = { background: "Clean air", natural: "Natural decay", total: "Cleaner on" };

/** What was taken for what, in the minutes of the drawing. */
function PhasesFound({ phases, runs }: { phases: AnalysisOut["phases"]; runs: number }) {
  if (phases.length === 0) return null;
  return (
    <ul>
      {phases.map(({ run, phase, from, to, why }) => (
        <li>
          {PHASE_WORDS[phase]}
          {runs > 1 ? ` (log ${run + 1})` : ""}: {(from / 60).toFixed(1)} to {(to / 60).toFixed(1)} min{" "}
          <small>
            (<bdi>{why}</bdi>)
          </small>
        </li>
      ))}
    </ul>
  );
}

/** The decay of the channel that tells most: of the quantity that stands first above, with a result, else a natural decay. */
function RunChart({ analysis, run }: { analysis: NonNullable<PreviewProps["analysis"]>; run: PreviewRun }) {
  const named = (id: string) => `c1/${id}`;
  const has = (list: readonly { band: { name: string } }[]) => (channel: Channel) =>
    list.some(({ band }) => band.name === named(channel.id));
  const first = analysis.results[0]?.band;
  const wanted = first?.kind !== "standard" ? null : first.name === "mass" ? "mass" : "number";
  const { channels } = run;
  const told = channels.filter(has(analysis.results));
  const channel =
    told.find(({ quantity }) => quantity === wanted) ?? told[0] ?? channels.find(has(analysis.naturals)) ?? channels[0];
  if (!channel) return null;
  const result = analysis.results.find(({ band }) => band.name === named(channel.id));
  const natural = result?.natural ?? analysis.naturals.find(({ band }) => band.name === named(channel.id));
  const here = ({ run: n }: { run: number }) => n === run.run;
  return (
    <DecayChart
      id={`preview-${run.run}`}
      tS={run.tS}
      channel={channel}
      phases={analysis.phases.filter(here)}
      natural={natural?.counters.filter(here) ?? []}
      total={result?.total.counters.filter(here) ?? []}
      marks={run.marks}
    />
  );
}
