import type { PreparedTrial } from "../../trial-input.ts";
import { columnsOfForm, guessColumns } from "./form-columns.ts";
import { MARK_EVENTS, SLOTS, type Slot } from "./form-fields.ts";
import { FormReader } from "./form-reader.ts";
import type { PreviewProps, PreviewRun } from "./preview.tsx";
import type { FormLog } from "./trial-from-form.ts";

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
