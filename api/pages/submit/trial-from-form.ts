import { fromRunSeconds } from "../../../analysis/reading/from-run-seconds.ts";
import { readLog } from "../../../analysis/reading/read-log.ts";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";
import { columnsOfForm, guessColumns, sentColumns, statedColumns } from "./form-columns.ts";
import { conditionsOfForm } from "./form-conditions.ts";
import { configurationOfForm } from "./form-configuration.ts";
import { counterOfForm } from "./form-counter.ts";
import { MARK_EVENTS, MOST_COLUMNS, SLOTS, type Slot } from "./form-fields.ts";
import { type FieldComplaint, FormReader, filled } from "./form-reader.ts";
import { roomOfForm } from "./form-room.ts";
import { readOnce } from "./read-once.ts";

/** A log as it was chosen, pasted or kept. */
export interface FormLog {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface FormTrial {
  /** The trial as its JSON goes over the wire, blank fields left out. What is required for storing may be missing. */
  readonly trial: Record<string, unknown>;
  /** The logs by the part names that the runs use. */
  readonly files: ReadonlyMap<string, FormLog>;
  readonly complaints: readonly FieldComplaint[];
}

/**
 * A filled form → the trial that it describes, in the server and in browsers alike. Marks go from minutes after the first
 * row into the log's own time. What cannot be read is complained about and left out; nothing is thrown.
 */
export function trialFromForm(fields: ReadonlyMap<string, string>, logs: ReadonlyMap<Slot, FormLog>): FormTrial {
  const form = new FormReader(fields);
  const used = SLOTS.filter((slot) => logs.has(slot));
  const runs: Record<string, unknown>[] = used.map((slot) => runOf(form, slot, logs.get(slot)!.bytes));
  const fromRun = form.text("from_run");
  if (fromRun !== undefined) runs.push({ role: "natural", counter: "c1", from_run: fromRun });
  if (used.length === 0) form.complain("full_log.file", "Choose the log of the counter, or paste it.");
  const trial = {
    ...configurationOfForm(form),
    ...filled({ room: roomOfForm(form) }),
    counters: [counterOfForm(form)],
    ...conditionsOfForm(form),
    runs,
  };
  return { trial, files: new Map(used.map((slot) => [slot, logs.get(slot)!])), complaints: form.complaints };
}

function runOf(form: FormReader, slot: Slot, bytes: Uint8Array): Record<string, unknown> {
  const guessed = guessColumns(bytes);
  const columns = sentColumns(form, slot, columnsOfForm(form, slot, guessed), guessed);
  const run = { role: slot, counter: "c1", file: slot, ...filled({ columns }) };
  const asked = MARK_EVENTS.flatMap((event) => {
    const minutes = form.number(`${slot}.mark.${event}`, "min");
    return minutes === undefined ? [] : [{ event, minutes }];
  });
  try {
    const { scale, series } = columns === undefined ? readOnce(bytes) : readLog(bytes, statedColumns(columns));
    const lastS = series.tS.reduce((most, t) => Math.max(most, t), 0);
    const marks = asked.flatMap(({ event, minutes }) => {
      if (minutes >= 0 && minutes * 60 <= lastS + 60) return [{ event, t: fromRunSeconds(60 * minutes, scale) }];
      form.complain(`${slot}.mark.${event}`, `The log holds the minutes from 0 to ${(lastS / 60).toFixed(1)}.`);
      return [];
    });
    return { ...run, ...(marks.length > 0 ? { marks } : {}) };
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    const column = guessed.findIndex(({ name }) => name === error.column);
    const isStated = columns !== undefined && column >= 0 && column < MOST_COLUMNS;
    const part = error.code === "unknown-unit" ? "unit" : "use";
    form.complain(isStated ? `${slot}.columns.${column}.${part}` : `${slot}.file`, readingWords(error));
    return run;
  }
}

/** Why a log could not be read, with the column and line where there is one. */
function readingWords({ code, message, column, line }: ReadingError): string {
  if (code === "too-large" && message.includes("values")) {
    const [held] = message.split(":");
    return `The log is too long: ${held}. Set columns below to “not used”, or cut the file to the hours of the test.`;
  }
  const where = [column && `column “${column}”`, line && `line ${line}`].filter(Boolean).join(", ");
  return `The log could not be read: ${message}${where ? ` (${where})` : ""}.`;
}
