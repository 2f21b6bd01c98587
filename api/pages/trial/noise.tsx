import type { TrialView } from "../../views.ts";
import { Missing, Sound } from "../quantity.tsx";
import { METER_WORDS, NOT_RATED_WORDS } from "./record-words.ts";
import { Stated } from "./stated.tsx";

/** Each reading of noise: as it was read, and what it says at 1 m. */
export function Noise({ noise = [], noise_results: rated }: TrialView) {
  if (noise.length === 0 || rated === null) {
    return (
      <section class="noise">
        <h2>Noise</h2>
        <p class="quiet">Not measured.</p>
      </section>
    );
  }
  return (
    <section class="noise">
      <h2>Noise</h2>
      <p>
        A-weighted sound pressure level at 1 m, as if in the open: <Sound of={rated.measured} />
        {rated.stated_by_maker && (
          <>
            ; by the maker’s figure <Sound of={rated.stated_by_maker} />
          </>
        )}
      </p>
      <section class="scroll" tabindex={0} aria-label="Readings of noise">
        <table>
          <thead>
            <tr>
              <th scope="col">Read by</th>
              <th scope="col">Level</th>
              <th scope="col">Background</th>
              <th scope="col">Distance</th>
              <th scope="col">
                Background correction K<sub>1</sub>
              </th>
              <th scope="col">At 1 m</th>
            </tr>
          </thead>
          <tbody>
            {rated.readings.map(({ n, at_1m: at1m, background_correction: k1, not_rated: why }) => {
              const { meter, quantity, level, background, distance } = noise[n]!;
              return (
                <tr>
                  <td>
                    {METER_WORDS[meter]}
                    {quantity === "L_WA" ? ", sound power" : ""}
                  </td>
                  <td>
                    <Stated of={level} />
                  </td>
                  <td>{background ? <Stated of={background} /> : <Missing why="not read" />}</td>
                  <td>{distance ? <Stated of={distance} /> : <Missing why="none" />}</td>
                  <td>{k1 === null ? <Missing why="none" /> : `${k1.toFixed(1)} dB`}</td>
                  <td>
                    <Sound of={at1m} missing={why ? NOT_RATED_WORDS[why]! : "not rated"} />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </section>
  );
}
