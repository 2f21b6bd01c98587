import { controlOf, Field, type Filled, Optional, SectionLegend } from "./field.tsx";
import { SLOTS, type Slot } from "./form-fields.ts";
import type { Kept } from "./kept-log.ts";

/** The counter's log: one of everything, or a log a phase. */
export function LogFields({ filled, kept }: { filled: Filled; kept: ReadonlyMap<Slot, Kept> }) {
  const separate = SLOTS.slice(1);
  return (
    <fieldset>
      <SectionLegend>The log</SectionLegend>
      <SlotFields slot="full_log" filled={filled} kept={kept.get("full_log")} />
      <Optional
        words="Separate logs instead"
        filled={filled}
        holds={(name) => separate.some((slot) => name.startsWith(`${slot}.`))}
        open={separate.some((slot) => kept.has(slot))}
      >
        <p class="hint">
          One for the cleaner on, one for the natural decay without it, and, where there is one, one of the clean air
          before. Without a natural decay it is assumed, and the result is less certain.
        </p>
        {separate.toReversed().map((slot) => (
          <SlotFields slot={slot} filled={filled} kept={kept.get(slot)} />
        ))}
      </Optional>
    </fieldset>
  );
}

function SlotFields({ slot, filled, kept }: { slot: Slot; filled: Filled; kept: Kept | undefined }) {
  const file = `${slot}.file` as const;
  const hint =
    slot === "full_log"
      ? "CSV as the counter wrote it: clean air, the test aerosol fed in, its natural decay, then the cleaner on. All logs together: 4 MB at most, and 200\u00a0000 times and readings."
      : undefined;
  return (
    <div class="fields slot" data-slot={slot}>
      <Field name={file} filled={filled} hint={hint} wide>
        <input {...controlOf({ name: file, filled, hint })} type="file" />
      </Field>
      {kept && <KeptLog slot={slot} kept={kept} />}
      <details class="wide-field">
        <summary>Paste it instead</summary>
        <Field name={`${slot}.text`} filled={filled}>
          <textarea {...controlOf({ name: `${slot}.text`, filled })} rows={6} spellcheck={false} />
        </Field>
      </details>
    </div>
  );
}

/** A log that came with an earlier request. A browser that runs scripts still has the file itself. */
function KeptLog({ slot, kept }: { slot: Slot; kept: Kept }) {
  const name = <bdi>{kept.name}</bdi>;
  if (kept.packed === null) {
    return (
      <p class="error wide-field kept">
        {name} was read, but is too large to be carried along from page to page: choose the file again before the next
        step.
      </p>
    );
  }
  return (
    <p class="hint wide-field kept">
      {name} is kept ({Math.ceil(kept.bytes / 1000)} KB as it came); another file takes its place.
      <input type="hidden" name={`${slot}.kept`} value={kept.packed} />
      <input type="hidden" name={`${slot}.kept_name`} value={kept.name} />
    </p>
  );
}
