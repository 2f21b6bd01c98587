import type { Channel } from "../../../analysis/trial.ts";
import { AS_TABLE } from "../as-table.ts";
import { unitWords } from "../figures.ts";
import { BelowControl, controlOf, type Filled } from "./field.tsx";
import { fieldWords } from "./field-words.ts";
import type { FormColumn } from "./form-columns.ts";
import { type ColumnField, type ColumnUse, MOST_COLUMNS, type SlotField } from "./form-fields.ts";
import type { FieldComplaint } from "./form-reader.ts";
import type { PreviewColumns } from "./preview.tsx";

const USES: Record<ColumnUse, string> = {
  none: "not used",
  time: "time",
  number: "particles",
  mass: "mass",
  raw: "another reading",
};

const UNITS = {
  Time: ["s", "min", "h", "datetime"],
  Particles: ["1/cm3", "1/L", "1/dL", "1/m3", "1/[cft_i]", "100/[cft_i]"],
  Mass: ["ug/m3", "mg/m3", "ng/m3"],
} as const;

const OWN_UNIT_WORDS: Record<string, string> = {
  datetime: "date and time",
  "1/L": "per litre",
  "1/dL": "per 0.1 L",
  "1/m3": "per m³",
  "1/[cft_i]": "per ft³",
  "100/[cft_i]": "per 0.01 ft³",
  "mg/m3": "mg/m³",
  "ng/m3": "ng/m³",
};

const CUMULATIVE: Record<Channel["cumulative"], string> = {
  none: "between the sizes",
  above: "from the size up",
  below: "up to the size",
};

interface Props extends PreviewColumns {
  readonly complaints: readonly FieldComplaint[];
  /** Wherever nothing could be told, or a column is complained about. */
  readonly open: boolean;
}

/** A log's columns as they were read, each with what it may be corrected to. */
export function ColumnsRead({ slot, name, columns, complaints, open, dayMonth }: Props) {
  const shown = columns.slice(0, MOST_COLUMNS);
  if (shown.length === 0) return null;
  const filled: Filled = { fields: new Map([[`${slot}.day_month`, dayMonth]]), complaints };
  const order = `${slot}.day_month` satisfies SlotField;
  const isOpened = open || complaints.some(({ field }) => field.startsWith(`${slot}.columns.`));
  return (
    <details open={isOpened} data-auto={isOpened ? "yes" : undefined}>
      <summary>
        Columns of <bdi>{name}</bdi> as they were read: correct them here
      </summary>
      <table class="stacks columns" {...AS_TABLE.table}>
        <thead>
          <tr {...AS_TABLE.row}>
            {["Column", "Holds", "In", "From, µm", "To, µm", "Counts"].map((head) => (
              <th {...AS_TABLE.head}>{head}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((column, n) => (
            <Row at={`${slot}.columns.${n}`} column={column} filled={filled} />
          ))}
        </tbody>
      </table>
      {columns.length > shown.length && (
        <p class="hint">
          {columns.length - shown.length} more columns cannot be corrected here: leave them out of the file.
        </p>
      )}
      <div class="fields">
        <div class="field">
          <label for={controlOf({ name: order, filled }).id}>{fieldWords(order)}</label>
          <select {...controlOf({ name: order, filled })}>
            <Options choices={{ "": "as the log tells", dmy: "day first", mdy: "month first" }} chosen={dayMonth} />
          </select>
          <BelowControl name={order} filled={filled} />
        </div>
      </div>
      <p>
        <button type="submit" name="do" value="preview" formaction="/submit#result">
          Read it so
        </button>
      </p>
    </details>
  );
}

type At = `${PreviewColumns["slot"]}.columns.${number}`;

interface RowProps {
  readonly at: At;
  readonly column: FormColumn;
  readonly filled: Filled;
}

function controlIn({ at, column, filled }: RowProps) {
  return (part: "use" | "unit" | "from" | "to" | "cumulative", words: string) => ({
    ...controlOf({ name: `${at}.${part}` as ColumnField, filled }),
    "aria-label": `${words}, column ${column.name}`,
  });
}

function Row({ at, column, filled }: RowProps) {
  const control = controlIn({ at, column, filled });
  return (
    <tr {...AS_TABLE.row}>
      <th {...AS_TABLE.rowHead}>
        <bdi>{column.name}</bdi> <small>{column.why}</small>
        <input type="hidden" name={`${at}.name`} value={column.name} />
      </th>
      <td {...AS_TABLE.cell} data-head="Holds">
        <select {...control("use", "What it holds")}>
          <Options choices={USES} chosen={column.use} />
        </select>
        <BelowControl name={`${at}.use` as ColumnField} filled={filled} />
      </td>
      <td {...AS_TABLE.cell} data-head="In">
        <select {...control("unit", "Unit")}>
          <option value="">as read</option>
          {Object.entries(UNITS).map(([words, units]) => (
            <optgroup label={words}>
              {units.map((unit) => (
                <option value={unit} selected={unit === column.unit}>
                  {OWN_UNIT_WORDS[unit] ?? unitWords(unit)}
                </option>
              ))}
            </optgroup>
          ))}
        </select>
        <BelowControl name={`${at}.unit` as ColumnField} filled={filled} />
      </td>
      {column.use === "time" ? <NoSizes /> : <Sizes at={at} column={column} filled={filled} />}
    </tr>
  );
}

/** Which sizes of particles a column holds. */
function Sizes({ at, column, filled }: RowProps) {
  const control = controlIn({ at, column, filled });
  return (
    <>
      {(["from", "to"] as const).map((end) => (
        <td {...AS_TABLE.cell} data-head={end === "from" ? "From, µm" : "To, µm"}>
          <input
            {...control(end, end === "from" ? "From this size in µm" : "To this size in µm")}
            type="text"
            inputmode="decimal"
            size={5}
            autocomplete="off"
            value={column.written[end]}
          />
          <BelowControl name={`${at}.${end}` as ColumnField} filled={filled} />
        </td>
      ))}
      <td {...AS_TABLE.cell} data-head="Counts">
        <select {...control("cumulative", "Which it counts")}>
          <Options choices={CUMULATIVE} chosen={column.cumulative} />
        </select>
        <BelowControl name={`${at}.cumulative` as ColumnField} filled={filled} />
      </td>
    </>
  );
}

/** A time has no size. */
function NoSizes() {
  return (
    <>
      {[0, 1, 2].map(() => (
        <td {...AS_TABLE.cell} />
      ))}
    </>
  );
}

function Options({ choices, chosen }: { choices: Readonly<Record<string, string>>; chosen: string }) {
  return (
    <>
      {Object.entries(choices).map(([value, words]) => (
        <option value={value} selected={value === chosen}>
          {words}
        </option>
      ))}
    </>
  );
}
