import type { PreparedTrial } from "../../trial-input.ts";
import { columnsOfForm, guessColumns } from "./form-columns.ts";
import { MARK_EVENTS, SLOTS, type Slot } from "./form-fields.ts";
import { type FieldComplaint, FormReader, filled } from "./form-reader.ts";
import type { PreviewProps, PreviewRun } from "./preview.tsx";
import type { FormLog, FormTrial } from "./trial-from-form.ts";

/** The runs as the preview draws them, in the server and in the browser. */
export function drawnRuns({ runs }: PreparedTrial): PreviewRun[] {
  return runs.map(({ input, source }) => ({
    run: input.index,
    slot: "read" in source ? (SLOTS.find((slot) => slot === input.role) ?? null) : null,
    tS: input.series.tS,
    channels: input.series.channels,
    marks: input.marks.flatMap(({ event, tS }) => {
      const known = MARK_EVENTS.find((each) => each === event);
      return known ? [{ event: known, tS }] : [];
    }),
  }));
}

/** The columns of each log as the form has them corrected. */
export function columnsShown(
  fields: ReadonlyMap<string, string>,
  logs: ReadonlyMap<Slot, FormLog>,
): PreviewProps["columns"] {
  const form = new FormReader(fields);
  return [...logs].map(([slot, { name, bytes }]) => {
    const dayMonth = form.text(`${slot}.day_month`) ?? "";
    return { slot, name, columns: columnsOfForm(form, slot, guessColumns(bytes)), dayMonth };
  });
}

/** Fields without which there is nothing to analyse, or something else than was meant. */
export function isLookedAt(field: string): boolean {
  return /^(room|counter|full_log|background|natural|total)\.|^from_run$/.test(field);
}

/** Whether the size of the room is wanting or cannot be read: then rates are shown, which need none, and no flow. */
export function isSizeless(complaints: readonly FieldComplaint[]): boolean {
  return complaints.some(({ field }) => SIZE.test(field));
}

const SIZE = /^room\.(unit|length|width|height|volume|sides_within|volume_within|displaced)$/;

/** The first complaint that leaves nothing to look at: without a size there are rates still, without a mark what the log shows. */
export function hindrance(complaints: readonly FieldComplaint[]): FieldComplaint | undefined {
  return complaints.find(({ field }) => isLookedAt(field) && !SIZE.test(field) && !field.includes(".mark."));
}

/** What a look analyses: a trial without what is asked later, and in a room of 1 m³ as long as its size is not known. */
export function lookedAt({ trial, complaints }: FormTrial) {
  const { room, counters, runs, performed_at } = trial;
  const { ventilation, mixing_fan } = (room ?? {}) as Record<string, unknown>;
  const unsized = { volume: { value: 1, unit: "m3" }, ...filled({ ventilation, mixing_fan }) };
  return { room: isSizeless(complaints) ? unsized : room, counters, runs, ...filled({ performed_at }) };
}
