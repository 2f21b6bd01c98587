import type { Child } from "hono/jsx";
import type { ConfigurationChoice } from "./choices.ts";
import { DescribedFields } from "./described-fields.tsx";
import { BelowControl, type Filled, groupOf, Optional, SectionLegend, TextField } from "./field.tsx";
import { chosenValue, DESCRIBED } from "./form-fields.ts";

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
        open={chosen === DESCRIBED}
        holds={(field) =>
          field.startsWith("described.") &&
          !/_unit$|compared$|\.part$|\.count$|grade_system$|currency$|cost_date$/.test(field)
        }
      >
        <div id="described">
          <DescribedFields filled={filled} />
        </div>
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
      {it.choices.map(({ id, title, kind, settings, invented, differs }) => (
        <li>
          <bdi>{title}</bdi> <small>{kind === "commercial" ? "commercial" : "home-made"}</small>
          {invented && (
            <small>
              {" · "}
              <em>invented</em>: every test of it so far is made up
            </small>
          )}
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
          {differs === null && (
            <button type="submit" name="copy" value={id} formaction="/submit#f-described-setting">
              Another setting
              <span class="unseen">
                {" "}
                of <bdi>{title}</bdi>
              </span>
            </button>
          )}
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
