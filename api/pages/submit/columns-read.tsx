import { type FieldName, idOf, MOST_COLUMNS, type SlotField } from "./form-fields.ts";
import type { FieldComplaint } from "./form-reader.ts";
import type { PreviewColumns } from "./preview.tsx";

/** A log's columns as they were read, each with what it may be corrected to. */
export function ColumnsRead({ slot, columns, complaints }: PreviewColumns & { complaints: readonly FieldComplaint[] }) {
  return (
    <details open={complaints.some(({ field }) => field.startsWith(`${slot}.columns.`))}>
      <summary>Columns as they were read</summary>
      {columns.slice(0, MOST_COLUMNS).map(({ name, use }, n) => (
        <p>
          <bdi>{name}</bdi> {use} {idOf(`${slot}.columns.${n}.use` satisfies SlotField as FieldName)}
        </p>
      ))}
    </details>
  );
}
