import { controlOf, type Filled, RadioField, Select, SelectField, TextField } from "./field.tsx";
import { partRowsShown } from "./form-configuration.ts";
import { MOST_PARTS } from "./form-fields.ts";

/** A configuration that is not stored yet: its name, its parts, the setting tested, its price. */
export function DescribedFields({ filled }: { filled: Filled }) {
  const shown = partRowsShown(filled.fields);
  return (
    <>
      <div class="fields">
        <TextField
          name="described.title"
          most={120}
          filled={filled}
          hint="Such as: Box of four panels, one 200 mm fan"
        />
        <RadioField
          name="described.kind"
          filled={filled}
          choices={[
            ["user_built", "home-made"],
            ["commercial", "commercial, as sold"],
          ]}
        />
        <TextField name="described.maker" most={80} filled={filled} hint="Of a commercial one." />
        <TextField name="described.model" most={80} filled={filled} hint="Of a commercial one." />
        <TextField
          name="described.arrangement"
          most={200}
          filled={filled}
          hint="Such as: four panels around, fan on top, sucking"
        />
        <TextField
          name="described.setting"
          most={60}
          filled={filled}
          hint="Such as: low. Blank where it runs in one way only."
        />
        <TextField
          name="described.setting_flow"
          number
          filled={filled}
          beside="described.setting_flow_unit"
          unit={
            <Select name="described.setting_flow_unit" filled={filled} aria="Unit of the air flow" choices={FLOWS} />
          }
        />
      </div>
      <h3>Parts</h3>
      <p class="hint">A part a row, fans and filters at least. Empty rows are left out.</p>
      <div id="parts">
        {Array.from({ length: shown }, (_, n) => (
          <PartRow n={n} filled={filled} />
        ))}
      </div>
      {shown < MOST_PARTS && (
        <p>
          <button type="submit" name="do" value="rows" formaction="/submit#f-configuration">
            More rows
          </button>
        </p>
      )}
      <div class="fields">
        <TextField
          name="described.cost"
          number
          filled={filled}
          beside="described.currency"
          unit={
            <input
              {...controlOf({ name: "described.currency", filled })}
              class="currency"
              type="text"
              maxlength={3}
              size={4}
              placeholder="EUR"
              aria-label="Currency, as three letters"
              value={filled.fields.get("described.currency") ?? ""}
            />
          }
        />
        <TextField name="described.cost_date" type="date" filled={filled} />
        <TextField name="described.plan_url" type="url" most={500} filled={filled} />
        <TextField
          name="described.derived_from"
          most={40}
          filled={filled}
          hint="The id of a configuration it was changed from: cfg-…"
        />
      </div>
    </>
  );
}

const FLOWS = [
  ["m3/h", "m³/h"],
  ["[cft_i]/min", "cfm"],
] as const;

function PartRow({ n, filled }: { n: number; filled: Filled }) {
  const at = `described.parts.${n}` as const;
  return (
    <fieldset class="inner">
      <legend>Part {n + 1}</legend>
      <div class="fields">
        <SelectField
          name={`${at}.part`}
          filled={filled}
          fallback={n === 0 ? "fan" : "filter"}
          choices={[
            ["fan", "fan"],
            ["filter", "filter"],
            ["housing", "housing"],
            ["ioniser", "ioniser"],
            ["other", "other"],
          ]}
        />
        <TextField name={`${at}.count`} number filled={filled} />
        <TextField name={`${at}.description`} most={200} filled={filled} />
        <TextField name={`${at}.size`} most={100} filled={filled} />
        <TextField
          name={`${at}.grade`}
          most={40}
          filled={filled}
          beside={`${at}.grade_system`}
          unit={
            <Select
              name={`${at}.grade_system`}
              filled={filled}
              aria={`System of the grade, part ${n + 1}`}
              choices={[
                ["MERV", "MERV"],
                ["ISO16890", "ISO 16890"],
                ["EN1822", "EN 1822"],
                ["other", "other"],
              ]}
            />
          }
        />
        <TextField
          name={`${at}.flow`}
          number
          filled={filled}
          beside={`${at}.flow_unit`}
          unit={
            <Select
              name={`${at}.flow_unit`}
              filled={filled}
              fallback={filled.fields.get("described.setting_flow_unit")}
              aria={`Unit of the air flow, part ${n + 1}`}
              choices={FLOWS}
            />
          }
        />
      </div>
    </fieldset>
  );
}
