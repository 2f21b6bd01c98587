import { scaleLinear } from "d3-scale";
import { grouped } from "../figures.ts";
import { shownEnds } from "./shown-ends.ts";

const HEIGHT = 16;

/** A scale shared by all rows of a table: where a value stands, in per cent of the width of its cell. */
export interface RowScale {
  readonly at: (value: number) => string;
  readonly ticks: readonly number[];
  /** What lies outside runs off the drawing. */
  readonly least: number;
  readonly most: number;
  /** Whether a row runs off. */
  readonly runsOff: boolean;
}

/** From 0, or below it where an interval reaches so far, to the greatest upper end, in round steps; giants run off it. */
export function rowScale(intervals: readonly { readonly low: number; readonly high: number }[]): RowScale {
  const { low, high } = shownEnds(intervals);
  const scale = scaleLinear([low, Math.max(high, low + 1e-9)], [2, 93]).nice(4);
  const [least, most] = scale.domain() as [number, number];
  return {
    at: (value) => `${Math.round(10 * scale(Math.min(Math.max(value, least), most))) / 10}%`,
    ticks: scale.ticks(4),
    least,
    most,
    runsOff: intervals.some((each) => each.low < least || each.high > most),
  };
}

/** For the caption of a table or drawing, where a bar of it runs off. */
export function runsOffWords({ runsOff }: Pick<RowScale, "runsOff">): string {
  return runsOff ? " A bar that ends in an arrow goes on beyond the scale, which is made for the others." : "";
}

/**
 * A 95 % interval as a bar, its value as a stroke across, what is needed as an upright; the numbers stand beside it. Beyond
 * the scale it ends in an arrow.
 */
export function IntervalBar(it: { scale: RowScale; low: number; value: number; high: number; need?: number }) {
  const { at, least, most } = it.scale;
  return (
    <svg class="bar" width="100%" height={HEIGHT} aria-hidden="true">
      <use href="#scale-lines" />
      {it.low <= most && it.high >= least && <line class="interval" x1={at(it.low)} x2={at(it.high)} y1="8" y2="8" />}
      {it.high > most && <Arrow x={at(most)} d="M-14 8H12m-6-5l6 5l-6 5" />}
      {it.low < least && <Arrow x={at(least)} d="M14 8H-2m6-5l-6 5l6 5" />}
      {it.value >= least && it.value <= most && (
        <line class="centre" x1={at(it.value)} x2={at(it.value)} y1="2" y2="14" />
      )}
      {it.need !== undefined && <line class="need" x1={at(it.need)} x2={at(it.need)} y1="0" y2={HEIGHT} />}
    </svg>
  );
}

/** In pixels about a place in per cent. */
function Arrow({ x, d }: { readonly x: string; readonly d: string }) {
  return (
    <svg class="bar" x={x} aria-hidden="true">
      <path class="runs-off" d={d} />
    </svg>
  );
}

/** The axis of all the bars below it. Its lines are drawn once and used in every bar. */
export function IntervalAxis({ scale }: { readonly scale: RowScale }) {
  return (
    <svg class="bar" width="100%" height="22" aria-hidden="true">
      {scale.ticks.map((tick) => (
        <text x={scale.at(tick)} y="11" text-anchor="middle">
          {grouped(String(tick)).replace("-", "−")}
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
