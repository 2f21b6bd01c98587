import { findMethodChange } from "../../../analysis/method-changes.ts";
import type { TrialView } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { unitWords } from "../figures.ts";
import { inUnit, Missing, Quantity } from "../quantity.tsx";
import type { Reader } from "../reader.ts";
import { bandWords } from "./record-words.ts";

/** What several versions of the method say of the same readings, side by side; nothing where there is one. */
export function Methods({ trial, reader }: { trial: TrialView; reader: Reader }) {
  const { analysis, other_methods: others } = trial;
  if (others.length === 0) return null;
  const all = [
    { method_version: analysis.method_version, at: trial.analysed_at, results: analysis.results },
    ...others,
  ];
  const bands = [...new Map(all.flatMap(({ results }) => results.map(({ band }) => [band.name, band]))).values()];
  return (
    <section>
      <h2>By each version of the method, {unitWords(reader.flow)}</h2>
      <section class="scroll" aria-label="Rates by version of the method" tabindex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Band</th>
              {all.map(({ method_version }) => (
                <th scope="col">Method {method_version}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {bands.map((band) => (
              <tr>
                <th scope="row">
                  <bdi>{bandWords(band)}</bdi>
                </th>
                {all.map(({ results }) => (
                  <td>
                    <Rate cadr={results.find((result) => result.band.name === band.name)?.cadr} reader={reader} />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <ul class="quiet">
        {all.map(({ method_version, at }, i) => (
          <li>
            {method_version}
            {i === 0 && ", which counts"}, analysed on {at.slice(0, 10)}.{" "}
            {findMethodChange(method_version)?.changed.join(" ") ?? "It is newer than this page."}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Rate({ cadr, reader }: { cadr: BandResultOut["cadr"] | undefined; reader: Reader }) {
  return cadr ? <Quantity of={inUnit(cadr, reader.flow)} bare /> : <Missing why="no rate" />;
}
