import { scaleLinear } from "d3-scale";

const HEIGHT = 16;

/** A scale shared by all rows of a table: where a value stands, in per cent of the width of its cell. */
export interface RowScale {
  readonly at: (value: number) => string;
  readonly ticks: readonly number[];
}

/** From 0, or below it where an interval reaches so far, to the greatest upper end, in round steps. */
export function rowScale(intervals: readonly { readonly low: number; readonly high: number }[]): RowScale {
  const low = Math.min(0, ...intervals.map((each) => each.low));
  const high = Math.max(...intervals.map((each) => each.high), low + 1e-9);
  const scale = scaleLinear([low, high], [2, 93]).nice(4);
  return { at: (value) => `${Math.round(10 * scale(value)) / 10}%`, ticks: scale.ticks(4) };
}

/** A 95 % interval as a bar, its value as a stroke across, what is needed as an upright; the numbers stand beside it. */
export function IntervalBar(it: { scale: RowScale; low: number; value: number; high: number; need?: number }) {
  const { at } = it.scale;
  return (
    <svg class="bar" width="100%" height={HEIGHT} aria-hidden="true">
      <use href="#scale-lines" />
      <line class="interval" x1={at(it.low)} x2={at(it.high)} y1="8" y2="8" />
      <line class="centre" x1={at(it.value)} x2={at(it.value)} y1="2" y2="14" />
      {it.need !== undefined && <line class="need" x1={at(it.need)} x2={at(it.need)} y1="0" y2={HEIGHT} />}
    </svg>
  );
}

/** The axis of all the bars below it. Its lines are drawn once and used in every bar. */
export function IntervalAxis({ scale }: { readonly scale: RowScale }) {
  return (
    <svg class="bar" width="100%" height="22" aria-hidden="true">
      {scale.ticks.map((tick) => (
        <text x={scale.at(tick)} y="11" text-anchor="middle">
          {String(tick).replace("-", "−")}
        </text>
      ))}
      <defs>
        <g id="scale-lines">
          {scale.ticks.map((tick) => (
            <line
              class={tick === 0 ? "axis-line" : "axis"}
              x1={scale.at(tick)}
              x2={scale.at(tick)}
              y1="0"
              y2={HEIGHT}
            />
          ))}
        </g>
      </defs>
      <use href="#scale-lines" y="16" />
    </svg>
  );
}
