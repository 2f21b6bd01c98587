import { scaleLinear } from "d3-scale";
import type { ComparisonOut } from "../../wire/comparison.ts";
import { unitWords } from "../figures.ts";
import { Quantity } from "../quantity.tsx";
import { BottomAxis } from "./axes.tsx";
import { Chart, round, type Size } from "./chart.tsx";

type Pair = ComparisonOut["pairs"][number];
type Told = Pair & { readonly difference: NonNullable<Pair["difference"]> };

interface Props {
  readonly pairs: readonly Pair[];
  readonly letter: (id: string) => string;
  readonly unit: string;
}

const ROW = 30;
const AROUND = 64;

/** Differences of clean air delivery rates, a line for every two, with their 95 % intervals about an upright 0. */
export function DifferencePlot({ pairs, letter, unit }: Props) {
  const told = pairs.filter((pair): pair is Told => pair.difference !== null);
  if (told.length === 0) return <p>Nothing to draw: no two of them have figures.</p>;
  const name = (pair: Pair) => `${letter(pair.a)} − ${letter(pair.b)}`;
  const height = AROUND + ROW * told.length;
  return (
    <Chart
      id="differences"
      title={`Differences of clean air delivery rates, ${told.length === 1 ? "one pair" : `${told.length} pairs`}`}
      description={`Each line is the 95 % interval of a difference in ${unitWords(unit)}; where it crosses 0 the tests do not tell which cleans more air.`}
      heights={[height, height]}
      draw={(size) => <Drawing size={size} told={told} name={name} unit={unit} />}
      caption={
        "A bar is the 95 % interval of a difference, the stroke across it the estimate. Where a bar crosses 0 the tests do not tell which cleans more air."
      }
      table={<Figures told={told} name={name} unit={unit} />}
    />
  );
}

interface Drawn {
  readonly told: readonly Told[];
  readonly name: (pair: Pair) => string;
  readonly unit: string;
}

function Drawing({ size, told, name, unit }: Drawn & { readonly size: Size }) {
  const { width, height, margin } = size;
  const lows = told.map(({ difference }) => difference.low);
  const highs = told.map(({ difference }) => difference.high);
  const x = scaleLinear(
    [Math.min(0, ...lows), Math.max(0, ...highs)],
    [margin.left + 6, width - margin.right - 6],
  ).nice(4);
  const y = (i: number) => margin.top + ROW * (i + 0.5);
  return (
    <>
      <BottomAxis
        size={size}
        x={x}
        ticks={x.ticks(size.name === "wide" ? 8 : 4)}
        words={size.name === "wide" ? `difference of clean air, ${unitWords(unit)}` : `difference, ${unitWords(unit)}`}
        grid
      />
      <path class="centre" d={`M${round(x(0))} ${margin.top}V${height - margin.bottom}`} />
      {told.map((pair, i) => (
        <g>
          <text class="name" x={margin.left - 8} y={y(i) + 4} text-anchor="end">
            {name(pair)}
          </text>
          <path class="interval" d={`M${round(x(pair.difference.low))} ${y(i)}H${round(x(pair.difference.high))}`} />
          <path class="centre" d={`M${round(x(pair.difference.value))} ${y(i) - 7}v14`} />
        </g>
      ))}
    </>
  );
}

function Figures({ told, name, unit }: Drawn) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Pair</th>
          <th scope="col" class="number">
            Difference, {unitWords(unit)}
          </th>
        </tr>
      </thead>
      <tbody>
        {told.map((pair) => (
          <tr>
            <th scope="row">{name(pair)}</th>
            <td class="number">
              <Quantity of={pair.difference} bare />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
