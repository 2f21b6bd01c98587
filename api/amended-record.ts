import type { Run } from "../analysis/trial.ts";
import { invalid } from "./problem.ts";
import type { AmendmentIn } from "./wire/amendment.ts";

type Fields = Readonly<Record<string, unknown>>;
interface Recorded extends Fields {
  readonly room: Fields;
  readonly counters?: readonly Fields[];
  readonly runs: readonly Fields[];
}

/**
 * The record of a trial with what an amendment puts in its place, and without what it says null of; `sent` is the amendment
 * as it came, units and all.
 * @throws RequestError "invalid" for a run or counter that the trial has not
 */
export function amendedRecord(record: Recorded, amendment: AmendmentIn, sent: Fields): Recorded {
  const { reason: _, room, runs, counters, ...others } = sent as Fields & Partial<Recorded>;
  const known = (record.counters ?? [{}]).map(({ id }) => id ?? "c1").sort();
  const named = (amendment.counters ?? []).map(({ id }) => id).sort();
  if (counters !== undefined && known.join("\n") !== named.join("\n")) {
    throw invalid(["counters"], `The counters of this trial are ${known.join(", ")}: name all of them, and no others.`);
  }
  const changes = new Map<number, Fields>();
  amendment.runs?.forEach(({ n }, i) => {
    if (n >= record.runs.length) throw invalid(["runs", i, "n"], `The trial has ${record.runs.length} runs, from 0.`);
    if (changes.has(n)) throw invalid(["runs", i, "n"], `Run ${n} stands twice.`);
    if (record.runs[n]!.from_run !== undefined) {
      throw invalid(["runs", i, "n"], `Run ${n} is another trial's: amend that one, or send this test anew.`);
    }
    amendment.runs?.[i]?.windows?.forEach(({ from, to }, w) => {
      if (!(to > from)) throw invalid(["runs", i, "windows", w, "to"], "A window must end after it begins.");
    });
    changes.set(n, runs![i]!);
  });
  const kept = stated({ ...record, ...others });
  return {
    ...kept,
    ...(counters === undefined ? {} : { counters }),
    room: stated({ ...record.room, ...room }),
    runs: record.runs.map((run, n) => {
      const { n: _n, ...change } = changes.get(n) ?? {};
      return { ...run, ...change };
    }),
  };
}

function stated(fields: Fields): Fields {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}

/**
 * A run of the record whose marks, windows or crops an amendment set: those it left stand there in the run's own unit, and
 * would be read in another, so all of them are told in seconds.
 */
export function timedRun(said: Fields, { marks, windows, series: { cropFromS, cropToS } }: Run): Fields {
  const { from: _, to: __, marks: ___, windows: ____, ...rest } = said;
  return {
    ...rest,
    times: "seconds after the first row",
    marks: marks.map(({ event, tS }) => ({ event, t: tS })),
    windows: windows.map(({ phase, n, fromS, toS }) => ({ phase, n, from: fromS, to: toS })),
    ...(cropFromS === null ? {} : { from: cropFromS }),
    ...(cropToS === null ? {} : { to: cropToS }),
  };
}

/** The numbers of the runs of whose times an amendment says something. */
export function retimedRuns({ runs }: AmendmentIn): Set<number> {
  const times = (run: NonNullable<AmendmentIn["runs"]>[number]) => [run.marks, run.windows, run.from, run.to];
  return new Set(runs?.filter((run) => times(run).some((value) => value !== undefined)).map(({ n }) => n));
}

/** A stored run as the amended record has it: its readings are those it had. */
export function amendedRun(run: Run, record: Recorded, amendment: AmendmentIn): Run {
  const change = amendment.runs?.find(({ n }) => n === run.index);
  const said = record.runs[run.index]!;
  if (said.from_run !== undefined) return run;
  const condition = (name: "mixing_fan" | "ventilation") => said[name] ?? record.room[name] ?? "unknown";
  return {
    ...run,
    mixingFan: condition("mixing_fan") as Run["mixingFan"],
    ventilation: condition("ventilation") as Run["ventilation"],
    marks: change?.marks?.map(({ event, t }) => ({ event, tS: t })) ?? run.marks,
    windows: change?.windows?.map(({ phase, n, from, to }) => ({ phase, n, fromS: from, toS: to })) ?? run.windows,
    series: {
      ...run.series,
      cropFromS: change?.from === undefined ? run.series.cropFromS : change.from,
      cropToS: change?.to === undefined ? run.series.cropToS : change.to,
    },
  };
}
