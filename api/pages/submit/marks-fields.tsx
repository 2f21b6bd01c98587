import { type Filled, Optional, SectionLegend, TextField } from "./field.tsx";
import type { MarkEvent, Slot } from "./form-fields.ts";

const MARKED: Record<Exclude<Slot, "background">, readonly MarkEvent[]> = {
  full_log: ["aerosol_end", "cleaner_on", "cleaner_off"],
  natural: ["aerosol_end"],
  total: ["cleaner_on", "cleaner_off"],
};

/** When what happened, for a log in which it was not found, or found wrong. */
export function MarksFields({ filled }: { filled: Filled }) {
  return (
    <fieldset>
      <SectionLegend>When what happened</SectionLegend>
      <p class="hint">
        In minutes after the first row of the log, as under the drawing. What is left blank is found in the log; what
        you noted yourself is better.
      </p>
      <Marks slot="full_log" filled={filled} />
      <Optional words="In separate logs" filled={filled} holds={(name) => /^(natural|total)\.mark\./.test(name)}>
        <Marks slot="natural" filled={filled} />
        <Marks slot="total" filled={filled} />
      </Optional>
      <p>
        <button type="submit" name="do" value="preview" formaction="/submit#result">
          Show again
        </button>
      </p>
    </fieldset>
  );
}

function Marks({ slot, filled }: { slot: keyof typeof MARKED; filled: Filled }) {
  return (
    <div class="fields">
      {MARKED[slot].map((event) => (
        <TextField name={`${slot}.mark.${event}`} number filled={filled} />
      ))}
    </div>
  );
}
