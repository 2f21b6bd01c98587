import { scaleLinear } from "d3-scale";
import type { ComparisonOut } from "../../wire/comparison.ts";
import { unitWords } from "../figures.ts";
import { Quantity } from "../quantity.tsx";
import { BottomAxis } from "./axes.tsx";
import { Chart, round, type Size } from "./chart.tsx";
import { runsOffWords } from "./interval-bar.tsx";
import { endsWithin } from "./shown-ends.ts";

type Pair = ComparisonOut["pairs"][number];
type Told = Pair & { readonly difference: NonNullable<Pair["difference"]> };

interface Props {
  readonly pairs: readonly Pair[];
  readonly letter: (id: string) => string;
  readonly unit: string;
  /** Differences up to this are drawn whole; of those beyond an arrow tells. */
  readonly most: number;
}

const ROW = 30;
const AROUND = 64;

/** Differences of clean air delivery rates, a line for every two, with their 95 % intervals about an upright 0. */
export function DifferencePlot({ pairs, letter, unit, most }: Props) {
  const told = pairs.filter((pair): pair is Told => pair.difference !== null);
  if (told.length === 0) return <p>Nothing to draw: no two of them have figures.</p>;
  const name = (pair: Pair) => `${letter(pair.a)} − ${letter(pair.b)}`;
  const ends = endsWithin(
    told.map(({ difference }) => difference),
    most,
  );
  const runsOff = told.some(({ difference: { low, high } }) => low < ends.low || high > ends.high);
  const height = AROUND + ROW * told.length;
  return (
    <Chart
      id="differences"
      title={`Differences of clean air delivery rates, ${told.length === 1 ? "one pair" : `${told.length} pairs`}`}
      description={`Each line is the 95 % interval of a difference in ${unitWords(unit)}; where it crosses 0 the tests do not tell which cleans more air.`}
      heights={[height, height]}
      draw={(size) => <Drawing size={size} told={told} ends={ends} name={name} unit={unit} />}
      caption={`A bar is the 95 % interval of a difference, the stroke across it the estimate. Where a bar crosses 0 the tests do not tell which cleans more air.${runsOffWords({ runsOff })}`}
      table={<Figures told={told} name={name} unit={unit} />}
    />
  );
}

interface Drawn {
  readonly told: readonly Told[];
  readonly name: (pair: Pair) => string;
  readonly unit: string;
}

type OnScale = Drawn & { readonly size: Size; readonly ends: { readonly low: number; readonly high: number } };

function Drawing({ size, told, ends, name, unit }: OnScale) {
  const { width, height, margin } = size;
  const x = scaleLinear([ends.low, ends.high], [margin.left + 6, width - margin.right - 6]).nice(4);
  const [least, most] = x.domain() as [number, number];
  const at = (value: number) => round(x(Math.min(Math.max(value, least), most)));
  const barOf = ({ low, high }: Told["difference"], y: number) =>
    low > most || high < least ? "" : `M${at(low)} ${y}H${at(high)}`;
  const beyond = ({ low, high }: Told["difference"], y: number) =>
    (high > most ? `M${at(most) - 14} ${y}h18m-6-5l6 5l-6 5` : "") +
    (low < least ? `M${at(least) + 14} ${y}h-18m6-5l-6 5l6 5` : "");
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
          <path class="interval" d={barOf(pair.difference, y(i))} />
          <path class="runs-off" d={beyond(pair.difference, y(i))} />
          {pair.difference.value >= least && pair.difference.value <= most && (
            <path class="centre" d={`M${at(pair.difference.value)} ${y(i) - 7}v14`} />
          )}
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
