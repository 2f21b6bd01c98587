import type { StoredSetting } from "../../../db/configurations.ts";
import { readStated } from "../../stated-figures.ts";
import { bandPhrase } from "../figures.ts";
import { Sound } from "../quantity.tsx";
import type { Described } from "./described.ts";
import { plainFigure, statedFlow } from "./stated-words.tsx";
import { submitAddress } from "./submit-address.ts";

/** Settings that no test was made at, with what is stated of them and a way to add one. */
export function Untested({ described: { view, settings, entries, band } }: { readonly described: Described }) {
  const untested = settings.filter(({ label }) => label !== "" && !entries.some((entry) => entry.setting === label));
  if (untested.length === 0) return null;
  return (
    <>
      <p>{entries.length > 0 ? `Not tested for ${bandPhrase(band)}:` : "It runs at these settings:"}</p>
      <ul>
        {untested.map((setting) => (
          <li>
            <bdi>{setting.label}</bdi>
            <Stated setting={setting} />. <a href={submitAddress(view.id, setting.label)}>Add a test of this</a>
          </li>
        ))}
      </ul>
    </>
  );
}

function Stated({ setting }: { readonly setting: StoredSetting }) {
  const { noise, power, flow } = readStated(setting.statedJson).out;
  if (!noise && !power && !flow) return null;
  return (
    <>
      , stated:{" "}
      {noise && (
        <>
          <Sound of={noise} /> at 1 m{" "}
        </>
      )}
      {power && `${plainFigure(power.value)} W `}
      {flow && `${statedFlow(flow.value, "m3/h")} of air`}
    </>
  );
}
