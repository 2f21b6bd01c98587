import { scaleLinear } from "d3-scale";
import { parseUnit } from "../../../analysis/units.ts";
import { two, unitWords } from "../figures.ts";
import type { FlowUnit } from "../reader.ts";
import { round } from "./chart.tsx";

const WIDTH = 240;
const HEIGHT = 16;

interface Part {
  readonly source: string;
  /** Standard uncertainty it brings, m³/h. */
  readonly u: number;
  /** Of the whole's variance; below 0 where it lessens the whole. */
  readonly share: number;
}

interface Props {
  readonly caption: string;
  readonly budget: readonly Part[];
  readonly wordsOf: (source: string) => string;
  readonly flow: FlowUnit;
  /** What the parts add up to in quadrature, and half the 95 % interval, m³/h. */
  readonly whole?: { readonly u: number; readonly expanded: number };
}

/**
 * What u(CADR) is made of, largest first: the share of the variance as a bar beside its number. The shares add up to 100 %;
 * what lessens the whole stands left of the line.
 */
export function BudgetBars({ caption, budget, wordsOf, flow, whole }: Props) {
  const parts = budget.toSorted((a, b) => Math.abs(b.share) - Math.abs(a.share));
  const least = Math.min(0, ...parts.map(({ share }) => share));
  const most = Math.max(1, ...parts.map(({ share }) => share));
  const x = scaleLinear([least, most], [1, WIDTH - 1]);
  return (
    <table class="budget">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Source</th>
          <th scope="col" class="number">
            Standard uncertainty, {unitWords(flow)}
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
            <th scope="row">{wordsOf(source)}</th>
            <td class="number">{two(parseUnit(flow).fromBase(u))}</td>
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
      {whole && (
        <tfoot>
          <tr>
            <th scope="row">Together, u</th>
            <td class="number">{two(parseUnit(flow).fromBase(whole.u))}</td>
            <td class="number">{percent(1)}</td>
            <td class="bar" />
          </tr>
          <tr>
            <th scope="row">{`× ${(whole.expanded / whole.u).toFixed(2)} (Student’s t, 95\u00a0%) = U, the ± above`}</th>
            <td class="number">{two(parseUnit(flow).fromBase(whole.expanded))}</td>
            <td />
            <td class="bar" />
          </tr>
        </tfoot>
      )}
    </table>
  );
}

/** Whole per cents; one digit of what is less. */
function percent(share: number): string {
  const hundred = 100 * share;
  const shown = Math.abs(hundred) < 1 ? Number(hundred.toPrecision(1)) : Math.round(hundred);
  return `${String(shown).replace("-", "−")}\u00a0%`;
}
