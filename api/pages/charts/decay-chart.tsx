import { scaleLinear, scaleLog } from "d3-scale";
import { line } from "d3-shape";
import type { Channel } from "../../../analysis/trial.ts";
import type { AnalysisOut, DecayOut } from "../../wire/analysis.ts";
import { unitWords } from "../figures.ts";

const WIDTH = 860;
const HEIGHT = 380;
const MARGIN = { top: 14, right: 16, bottom: 44, left: 64 };
const MOST_POINTS = 900;

interface Props {
  readonly run: number;
  readonly tS: Float64Array;
  readonly channel: Channel;
  readonly phases: AnalysisOut["phases"];
  readonly natural: readonly DecayOut[];
  readonly total: readonly DecayOut[];
}

/** One run's readings on a logarithmic axis, with the phases that were used and the fitted decays. */
export function DecayChart({ run, tS, channel, phases, natural, total }: Props) {
  const points = readings(tS, channel.values);
  if (points.length === 0) return <p class="quiet">No reading of {channel.id} lies above zero.</p>;
  const times = points.map(([t]) => t);
  const heights = points.map(([, y]) => y);
  const x = scaleLinear([Math.min(...times), Math.max(...times)], [MARGIN.left, WIDTH - MARGIN.right]);
  const y = scaleLog([Math.min(...heights) * 0.8, Math.max(...heights) * 1.25], [HEIGHT - MARGIN.bottom, MARGIN.top]);
  const curves = [
    ...natural.map((decay) => ({ decay, phase: "natural" })),
    ...total.map((decay) => ({ decay, phase: "total" })),
  ];
  return (
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-labelledby={`chart-${run}`}>
      <title id={`chart-${run}`}>
        {`${channel.id} against time on a logarithmic axis: ${points.length} readings, ${curves.length} fitted decays`}
      </title>
      {phases.map(({ phase, from, to }) => (
        <rect
          class={`span-${phase}`}
          x={x(from / 60)}
          width={Math.max(1, x(to / 60) - x(from / 60))}
          y={MARGIN.top}
          height={HEIGHT - MARGIN.top - MARGIN.bottom}
        />
      ))}
      {levels(y.domain() as [number, number]).map((level) => (
        <g>
          <line class="axis" x1={MARGIN.left} x2={WIDTH - MARGIN.right} y1={y(level)} y2={y(level)} />
          <text x={MARGIN.left - 8} y={y(level) + 4} text-anchor="end">
            {level >= 10_000 || level < 0.01
              ? level.toExponential(0).replace("e+", "e")
              : String(Number(level.toPrecision(3)))}
          </text>
        </g>
      ))}
      {x.ticks(8).map((minute) => (
        <g>
          <line
            class="axis"
            x1={x(minute)}
            x2={x(minute)}
            y1={HEIGHT - MARGIN.bottom}
            y2={HEIGHT - MARGIN.bottom + 5}
          />
          <text x={x(minute)} y={HEIGHT - MARGIN.bottom + 20} text-anchor="middle">
            {minute}
          </text>
        </g>
      ))}
      <text x={(MARGIN.left + WIDTH - MARGIN.right) / 2} y={HEIGHT - 6} text-anchor="middle">
        minutes after the first row
      </text>
      <text x={14} y={HEIGHT / 2} text-anchor="middle" transform={`rotate(-90 14 ${HEIGHT / 2})`}>
        {channelWords(channel)}
      </text>
      {points.map(([t, level]) => (
        <circle class="reading" cx={round(x(t))} cy={round(y(level))} r="1.8" />
      ))}
      {curves.map(({ decay, phase }) => (
        <path class={`fit fit-${phase}`} d={curve(decay, x, y) ?? ""} />
      ))}
    </svg>
  );
}

/** B + A·e^(−k(t − t₀)) over the window that was fitted, t₀ its start. */
function curve({ amplitude, background, k, window }: DecayOut, x: (t: number) => number, y: (level: number) => number) {
  const steps = 60;
  const points = Array.from({ length: steps + 1 }, (_, i): [number, number] => {
    const t = window.from + (i / steps) * (window.to - window.from);
    const level = background.value + amplitude * Math.exp((-k.value * (t - window.from)) / 3600);
    return [round(x(t / 60)), round(y(level))];
  });
  return line()(points.filter(([, level]) => Number.isFinite(level)));
}

/** Readings above zero as (minutes, level), thinned evenly to what the eye can use. */
function readings(tS: Float64Array, values: Float64Array): [number, number][] {
  const all = Array.from(tS, (t, i): [number, number] => [t / 60, values[i]!]).filter(
    ([t, y]) => Number.isFinite(t) && y > 0,
  );
  const every = Math.ceil(all.length / MOST_POINTS);
  return all.filter((_, i) => i % every === 0);
}

/** Levels to mark on a logarithmic axis: powers of ten, with 2 and 5 between them, or even steps where the range is short. */
function levels([low, high]: [number, number]): number[] {
  if (high / low < 5)
    return scaleLinear([low, high], [0, 1])
      .ticks(5)
      .filter((level) => level > 0);
  const steps = high / low < 100 ? [1, 2, 5] : [1];
  const found: number[] = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++) {
    for (const step of steps) found.push(step * 10 ** power);
  }
  return found.filter((level) => level >= low && level <= high);
}

/** A channel's name, with its unit where the name does not hold one already. */
export function channelWords({ id, unit }: Channel): string {
  return /[([]/.test(id) ? id : `${id} (${unitWords(unit)})`;
}

function round(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}
