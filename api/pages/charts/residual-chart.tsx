import { scaleLinear } from "d3-scale";
import { BottomAxis, LeftAxis } from "./axes.tsx";
import { Chart, dots, round, type Size } from "./chart.tsx";
import { type DecayDrawing, fitsOf } from "./decay-drawing.ts";
import { drawnSpan } from "./drawn-span.ts";
import { fittedLevel } from "./fitted-level.ts";
import { thinned } from "./thinned.ts";

interface FitResiduals {
  readonly phase: "natural" | "total";
  readonly fromS: number;
  readonly toS: number;
  readonly tS: readonly number[];
  /** Reading over fit less 1, in per cent. */
  readonly percent: Float64Array;
  /** Their root mean square, in per cent. */
  readonly sd: number;
}

const MOST_POINTS = { wide: 500, narrow: 300 };

/** Each fit's residuals under its decay, over the same minutes: reading over fit less 1, with a band of twice their root mean square. */
export function ResidualChart(drawing: DecayDrawing) {
  const span = drawnSpan(drawing);
  const fits = residualsOf(drawing, span?.use ?? (() => false));
  if (span === null || fits.length === 0) return null;
  const edge = 3.2 * Math.max(...fits.map(({ sd }) => sd), 0.01);
  return (
    <Chart
      id={`${drawing.id}-residuals`}
      title="Readings over fit"
      description={fits
        .map(({ phase, sd }) => `${phase} decay: the readings scatter about the fit by ${sd.toPrecision(2)} per cent`)
        .join("; ")}
      heights={[134, 134]}
      top={28}
      draw={(size) => draw(fits, span.minutes, edge, size)}
      caption="Reading over fit less one, in %. Band: twice their standard deviation."
      table={<ResidualTable fits={fits} />}
    />
  );
}

function residualsOf(drawing: DecayDrawing, use: (i: number) => boolean): FitResiduals[] {
  const { tS, channel } = drawing;
  return fitsOf(drawing).flatMap(({ phase, decay }) => {
    const { from, to } = decay.window;
    const inside = [...tS.keys()].filter((i) => use(i) && tS[i]! >= from && tS[i]! <= to);
    if (inside.length === 0) return [];
    const percent = Float64Array.from(inside, (i) => 100 * (channel.values[i]! / fittedLevel(decay, tS[i]!) - 1));
    const sd = Math.sqrt(percent.reduce((sum, r) => sum + r * r, 0) / percent.length);
    return [{ phase, fromS: from, toS: to, tS: inside.map((i) => tS[i]!), percent, sd }];
  });
}

function draw(fits: readonly FitResiduals[], minutes: readonly [number, number], edge: number, size: Size) {
  const { width, height, margin, name } = size;
  const x = scaleLinear(minutes, [margin.left, width - margin.right]);
  const y = scaleLinear([-edge, edge], [height - margin.bottom, margin.top]).clamp(true);
  return (
    <g>
      {fits.map(({ phase, fromS, toS, sd }) => (
        <rect
          class={`span-${phase}`}
          x={round(x(fromS / 60))}
          width={round(x(toS / 60) - x(fromS / 60))}
          y={round(y(2 * sd))}
          height={round(y(-2 * sd) - y(2 * sd))}
        />
      ))}
      <LeftAxis size={size} y={y} ticks={y.ticks(3)} words="% of the fit" />
      <BottomAxis size={size} x={x} ticks={x.ticks(name === "wide" ? 9 : 5)} words="minutes after the first row" />
      {fits.map(({ phase, fromS, toS, tS, percent }) => (
        <g>
          <path
            class="reading"
            d={dots(
              thinned(percent, MOST_POINTS[name], () => true).map((i) => [x(tS[i]! / 60), y(percent[i]!)] as const),
            )}
          />
          <path class={`zero zero-${phase}`} d={`M${round(x(fromS / 60))} ${round(y(0))}H${round(x(toS / 60))}`} />
        </g>
      ))}
    </g>
  );
}

function ResidualTable({ fits }: { fits: readonly FitResiduals[] }) {
  return (
    <table>
      <caption>How the readings scatter about each fit, in % of it</caption>
      <thead>
        <tr>
          <th scope="col">decay</th>
          <th scope="col">readings</th>
          <th scope="col">standard deviation</th>
          <th scope="col">lowest</th>
          <th scope="col">highest</th>
        </tr>
      </thead>
      <tbody>
        {fits.map(({ phase, percent, sd }) => (
          <tr>
            <th scope="row">{phase}</th>
            <td>{percent.length}</td>
            <td>{sd.toPrecision(2)}</td>
            <td>
              {Math.min(...percent)
                .toPrecision(2)
                .replace("-", "−")}
            </td>
            <td>{Math.max(...percent).toPrecision(2)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
