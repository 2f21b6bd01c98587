import { BASIS_WORDS } from "../basis-words.ts";
import { CleanerTitle } from "../cleaner-name.tsx";
import { BAND_CHOICES, bandPhrase } from "../figures.ts";
import { ChoiceField } from "../form/fields.tsx";
import { KIND_WORDS } from "../kind-words.ts";
import type { Choice } from "./choices.ts";
import type { Chosen } from "./chosen.ts";

/** Where two to six results are chosen; works as one form, whose second button only looks further. */
export function ChooseForm({ chosen, choices }: { readonly chosen: Chosen; readonly choices: readonly Choice[] }) {
  const { band, basis, find } = chosen;
  const asked = { texts: { band, basis }, complaints: {} };
  return (
    <form method="get" action="/compare" class="tool">
      <fieldset>
        <legend>Where to look</legend>
        <div class="fields">
          <ChoiceField asked={asked} name="band" label="Particle size" of={BAND_CHOICES} />
          <ChoiceField asked={asked} name="basis" label="Tests that count" of={BASIS_WORDS} />
          <div class="field">
            <label for="f-find">Words of its name</label>
            <input id="f-find" name="find" type="search" value={find} autocomplete="off" maxlength={100} />
          </div>
          <div class="field">
            <button type="submit" name="do" value="find">
              Look
            </button>
          </div>
        </div>
      </fieldset>
      <fieldset id="f-entries" tabindex={-1}>
        <legend>Which to compare</legend>
        {choices.length === 0 ? (
          <p>
            Nothing{find && " of that name"} is listed for {bandPhrase(band)}.
          </p>
        ) : (
          <>
            <p class="hint">
              Two to six of one particle size.{" "}
              {!find && "The strongest are listed; look for others by their name, or tick them in the "}
              {!find && <a href={`/?band=${band}`}>list of all</a>}
              {!find && "."}
            </p>
            {choices.map((choice) => (
              <label class="choice">
                <input type="checkbox" name="entries" value={choice.id} checked={choice.ticked} />
                <span>
                  <CleanerTitle title={choice.title} setting={choice.setting} />{" "}
                  <small class="quiet">
                    {KIND_WORDS[choice.kind]}
                    {choice.invented && " · invented"}
                  </small>
                </span>
              </label>
            ))}
          </>
        )}
      </fieldset>
      <p>
        <button type="submit" class="first" name="do" value="compare">
          Compare those ticked
        </button>
      </p>
    </form>
  );
}
