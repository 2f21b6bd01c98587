import type { Child } from "hono/jsx";
import type { ConfigurationChoice } from "./choices.ts";
import {
  BelowControl,
  controlOf,
  type Filled,
  groupOf,
  Optional,
  RadioField,
  SectionLegend,
  Select,
  SelectField,
  TextField,
} from "./field.tsx";
import { partRows } from "./form-configuration.ts";
import { chosenValue, DESCRIBED, MOST_PARTS } from "./form-fields.ts";
import { FormReader } from "./form-reader.ts";

interface Props {
  readonly filled: Filled;
  readonly found: readonly ConfigurationChoice[] | null;
  readonly similar: readonly ConfigurationChoice[] | null;
}

/** What was tested: searched for, or described. */
export function ConfigurationFields({ filled, found, similar }: Props) {
  const name = "configuration";
  const chosen = filled.fields.get("configuration") ?? "";
  return (
    <fieldset {...groupOf({ name, filled })}>
      <SectionLegend>What was tested</SectionLegend>
      <BelowControl name={name} filled={filled} />
      <p class="hint">
        Tests of the same cleaner at the same setting are pooled, whoever made them. Whatever could change its rate
        (another filter, another fan) makes it another one.
      </p>
      <div class="fields">
        <TextField
          name="find"
          filled={filled}
          most={100}
          unit={
            <button type="submit" name="do" value="find" formaction="/submit#f-configuration">
              Find
            </button>
          }
        />
      </div>
      <div id="found">
        {found && (
          <Choices
            words="Found"
            choices={found}
            chosen={chosen}
            name={name}
            none="Nothing has that in its name. Describe it below."
          />
        )}
      </div>
      <label class="choice">
        <input type="radio" name={name} value={DESCRIBED} checked={chosen === DESCRIBED} />
        It is not listed: as described here
      </label>
      <Optional
        words="Describe it"
        filled={filled}
        holds={(field) =>
          field.startsWith("described.") && !/_unit$|compared$|\.part$|\.count$|grade_system$/.test(field)
        }
      >
        <Described filled={filled} />
      </Optional>
      <div id="similar">
        {similar && similar.length > 0 && (
          <>
            <h3>Is it one of these?</h3>
            <input type="hidden" name="described.compared" value="yes" />
            <Choices words="Similar" choices={similar} chosen={chosen} name={name} />
          </>
        )}
      </div>
    </fieldset>
  );
}

function Choices(it: {
  words: string;
  choices: readonly ConfigurationChoice[];
  chosen: string;
  name: string;
  none?: string;
}) {
  if (it.choices.length === 0) return <p>{it.none}</p>;
  return (
    <ul class="choices" aria-label={it.words}>
      {it.choices.map(({ id, title, kind, settings, differs }) => (
        <li>
          <bdi>{title}</bdi> <small>{kind === "commercial" ? "commercial" : "home-made"}</small>
          {differs && <Differs differs={differs} />}
          {(settings.length > 0 ? settings : [""]).map((setting) => (
            <label class="choice">
              <input
                type="radio"
                name={it.name}
                value={chosenValue(id, setting)}
                checked={it.chosen === chosenValue(id, setting)}
              />
              <span>
                {setting === "" ? (
                  "this one"
                ) : (
                  <>
                    at <bdi>{setting}</bdi>
                  </>
                )}
                <span class="unseen">
                  {" "}
                  of <bdi>{title}</bdi>
                </span>
              </span>
            </label>
          ))}
        </li>
      ))}
    </ul>
  );
}

function Differs({ differs }: { differs: readonly string[] }): Child {
  return (
    <p class="hint">
      {differs.length === 0 ? (
        "The same parts."
      ) : (
        <>
          It has: <bdi>{differs.join("; ")}</bdi>
        </>
      )}
    </p>
  );
}

const FLOWS = [
  ["m3/h", "m³/h"],
  ["[cft_i]/min", "cfm"],
] as const;

function Described({ filled }: { filled: Filled }) {
  const rows = partRows(new FormReader(filled.fields));
  const shown = Math.min(MOST_PARTS, (rows.at(-1) ?? -1) + 3);
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
              aria={`Unit of the air flow, part ${n + 1}`}
              choices={FLOWS}
            />
          }
        />
      </div>
    </fieldset>
  );
}
