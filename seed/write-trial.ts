import { COUNTERS } from "./counters.ts";
import { writeLog } from "./log-form.ts";
import { ROOMS } from "./rooms.ts";
import { type SimulatedRun, simulatePlan } from "./simulate-plan.ts";
import type { TrialPlan } from "./trial-plan.ts";

/** What the registry has answered so far: ids of configurations and trials by their keys. */
export interface KnownIds {
  readonly configurations: ReadonlyMap<string, string>;
  readonly trials: ReadonlyMap<string, string>;
}

/** A plan's body for POST /v1/trials: JSON, or a form where its logs are files. The same plan gives the same bytes. */
export function writeTrial(plan: TrialPlan, known: KnownIds): string | FormData {
  const runs = simulatePlan(plan).map((run, i) => writeRun(plan, run, `log-${i}`));
  const linked = typeof plan.layout === "object" ? [linkedRun(plan, plan.layout.naturalOf, known)] : [];
  const trial = JSON.stringify({
    configuration: known.configurations.get(plan.cleaner),
    setting: plan.setting,
    performed_at: plan.at,
    room: { ...ROOMS[plan.room].words, ventilation: plan.ventilation, mixing_fan: plan.mixingFan },
    counters: plan.counters.map((id) => ({ id, ...COUNTERS[id].words })),
    aerosol: { kind: plan.aerosol },
    interest: plan.interest,
    ...plan.also,
    invented: true,
    runs: [...runs.map(({ words }) => words), ...linked],
  });
  const files = runs.flatMap(({ file }) => (file ? [file] : []));
  if (files.length === 0) return trial;
  const form = new FormData();
  form.append("trial", trial);
  for (const { part, name, text } of files) form.append(part, new File([text], name, { type: "text/csv" }));
  return form;
}

function writeRun(plan: TrialPlan, run: SimulatedRun, part: string) {
  const startMs = Date.parse(plan.at) + 1000 * run.startS;
  const log = writeLog(run.series, plan.form, part, startMs);
  const marks = plan.layout === "marked_log" ? marksOf(run, log.timeOf) : [];
  const words = {
    role: run.role,
    counter: run.counter,
    ...log.words,
    performed_at: new Date(startMs).toISOString(),
    ...(run.role === "natural" && plan.mixingFanInNatural ? { mixing_fan: plan.mixingFanInNatural } : {}),
    ...(marks.length > 0 ? { marks } : {}),
  };
  return { words, file: log.file && { part, ...log.file } };
}

function marksOf({ feedEndS, cleanerOnS }: SimulatedRun, timeOf: (tS: number) => number | string) {
  return [
    ...(feedEndS === null ? [] : [{ event: "aerosol_end", t: timeOf(feedEndS) }]),
    ...(cleanerOnS === null ? [] : [{ event: "cleaner_on", t: timeOf(cleanerOnS) }]),
  ];
}

/** The natural run of a trial sent before, which stands there as run 1: background, natural, total. */
function linkedRun(plan: TrialPlan, naturalOf: string, known: KnownIds) {
  return { role: "natural", counter: plan.counters[0], from_run: `${known.trials.get(naturalOf)}/runs/1` };
}
