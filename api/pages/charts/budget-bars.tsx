import { scaleLinear } from "d3-scale";
import { parseUnit } from "../../../analysis/units.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { unitWords } from "../figures.ts";
import type { Reader } from "../reader.ts";
import { two } from "../trial/finding-words.ts";
import { sourceWords } from "../trial/source-words.ts";
import { round } from "./chart.tsx";

const WIDTH = 240;
const HEIGHT = 16;

/**
 * What u(CADR) is made of, largest first: the share of the variance as a bar beside its number. The shares add up to 100 %;
 * what lessens the whole stands left of the line.
 */
export function BudgetBars({ result, reader }: { result: BandResultOut; reader: Reader }) {
  const parts = [...result.budget].sort((a, b) => Math.abs(b.share) - Math.abs(a.share));
  const least = Math.min(0, ...parts.map(({ share }) => share));
  const most = Math.max(1, ...parts.map(({ share }) => share));
  const x = scaleLinear([least, most], [1, WIDTH - 1]);
  const shared = parts.some(({ source }) => source === "shared_background");
  return (
    <>
      <table class="budget">
        <caption>What the uncertainty is made of</caption>
        <thead>
          <tr>
            <th scope="col">Source</th>
            <th scope="col" class="number">
              Standard uncertainty, {unitWords(reader.flow)}
            </th>
            <th scope="col" class="number">
              Share
            </th>
            <td class="bar" />
          </tr>
        </thead>
        <tbody>
          {parts.map(({ source, u, share }) => (
            <tr>
              <th scope="row">{sourceWords(source, result.natural.source)}</th>
              <td class="number">{two(parseUnit(reader.flow).fromBase(u))}</td>
              <td class="number">{percent(share)}</td>
              <td class="bar">
                <svg
                  width={WIDTH}
                  height={HEIGHT}
                  viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
                  preserveAspectRatio="none"
                  aria-hidden="true"
                >
                  <path class="axis-line" d={`M${round(x(0))} 0V${HEIGHT}`} />
                  <rect
                    class={share < 0 ? "part part-less" : "part"}
                    x={round(Math.min(x(0), x(share)))}
                    width={round(Math.max(0.5, Math.abs(x(share) - x(0))))}
                    y="3"
                    height={HEIGHT - 6}
                  />
                </svg>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {shared && (
        <p class="quiet unprinted">
          Both decays fall towards the same background, so an error of it moves both rates alike and partly cancels in
          their difference: a share below zero lessens the whole.
        </p>
      )}
    </>
  );
}

/** Whole per cents; one digit of what is less. */
function percent(share: number): string {
  const hundred = 100 * share;
  const shown = Math.abs(hundred) < 1 ? Number(hundred.toPrecision(1)) : Math.round(hundred);
  return `${String(shown).replace("-", "−")}\u00a0%`;
}
