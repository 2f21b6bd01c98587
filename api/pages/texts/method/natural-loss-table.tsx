import type { Band } from "../../../../analysis/analysis.ts";
import { assumedNaturalLoss } from "../../../../analysis/assumed-natural-loss.ts";
import { interval95 } from "../../../../analysis/estimate.ts";
import { STANDARD_BANDS } from "../../../../analysis/size-bands.ts";
import type { Ventilation } from "../../../../analysis/trial.ts";
import { BAND_WORDS } from "../../figures.ts";
import { Quantity } from "../../quantity.tsx";

const BANDS: readonly Band[] = [
  ...STANDARD_BANDS.map((band): Band => ({ kind: "standard", coverage: 1, ...band })),
  { kind: "standard", name: "mass", fromUm: null, toUm: 2.5, coverage: null },
];

const VENTILATIONS: readonly (readonly [Ventilation, string])[] = [
  ["off", "Off"],
  ["unknown", "Not known"],
  ["natural", "Windows"],
  ["mechanical", "Fan"],
];

/** What is taken off where no natural decay was logged, as the analysis takes it, in a room over 10 m³. */
export function NaturalLossTable() {
  return (
    <table class="paper">
      <caption>
        Natural loss where none was measured, 1 per hour, with its 95&nbsp;% interval, by ventilation (common practice,
        no source)
      </caption>
      <thead>
        <tr>
          <th scope="col">Size</th>
          {VENTILATIONS.map(([, words]) => (
            <th scope="col">{words}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {BANDS.map((band) => (
          <tr>
            <th scope="row">{BAND_WORDS[band.name]}</th>
            {VENTILATIONS.map(([ventilation]) => (
              <td>
                <Quantity of={assumed(band, ventilation)} bare />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function assumed(band: Band, ventilation: Ventilation) {
  const room = { volumeM3: { value: 30, u: 0, dof: Infinity }, ventilation, mixingFan: "unknown" } as const;
  const estimate = assumedNaturalLoss(band, band.name === "mass" ? "mass" : "number", room);
  return { value: estimate.value, ...interval95(estimate), unit: "1/h" };
}
