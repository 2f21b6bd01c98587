import { scaleLinear } from "d3-scale";
import type { Child } from "hono/jsx";
import { between, range, unitWords } from "../figures.ts";
import { BottomAxis } from "./axes.tsx";
import { Chart, round, type Size } from "./chart.tsx";
import { shortened } from "./shortened.ts";

interface Interval {
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

/** What one room says. */
export interface ForestRow extends Interval {
  readonly name: string;
  /** Tests, paired or not, who paid. */
  readonly about: string;
  /** Share in the pooled value. */
  readonly weight: number;
}

interface Props {
  /** Unique in its page. */
  readonly id: string;
  readonly rows: readonly ForestRow[];
  readonly pooled: Interval;
  readonly prediction: { readonly low: number; readonly high: number };
  readonly unit: string;
  readonly caption: Child;
  readonly table: Child;
}

/** Heights of a row, and where its words and its line stand in it. */
const ROW = {
  wide: { height: 44, name: 18, about: 35, line: 22, left: 320, right: 160, line1: 42, line2: 49 },
  narrow: { height: 60, name: 14, about: 31, line: 47, left: 8, right: 8, line1: 50, line2: 50 },
};
const FOOT = 48;
const HEAD = 12;

/**
 * Each room's value with its 95 % interval, the squares as large as their weights; below them the pooled value as a diamond as
 * wide as its interval, and where another room is expected; all on one scale.
 */
export function ForestPlot({ id, rows, pooled, prediction, unit, caption, table }: Props) {
  return (
    <Chart
      id={id}
      title={FOREST_TITLE}
      description={`${forestWords({ rows, pooled, unit })} The table below holds the figures.`}
      heights={[forestHeight("wide", rows.length), forestHeight("narrow", rows.length)]}
      draw={(size) => <ForestDrawing size={size} rows={rows} pooled={pooled} prediction={prediction} unit={unit} />}
      caption={caption}
      table={table}
    />
  );
}

export const FOREST_TITLE = "What each room found, and all of them together";

export function forestWords({ rows, pooled, unit }: Pick<Props, "rows" | "pooled" | "unit">): string {
  const rooms = rows.length === 1 ? "one room with its 95 % interval" : `${rows.length} rooms with 95 % intervals`;
  return `Clean air delivery rates in ${unitWords(unit)} of ${rooms}, the pooled one ${range(pooled)}, and where another room is expected.`;
}

export function forestHeight(name: Size["name"], rows: number): number {
  return HEAD + (rows + 2) * ROW[name].height + FOOT;
}

type DrawingProps = Pick<Props, "rows" | "pooled" | "prediction" | "unit"> & { readonly size: Size };

/** The drawing alone, for a page or a picture. */
export function ForestDrawing({ size, rows, pooled, prediction, unit }: DrawingProps) {
  const row = ROW[size.name];
  const margin = { top: HEAD, bottom: FOOT - 4, left: row.left, right: row.right };
  const within: Size = { ...size, margin };
  const domain = domainOf(rows, pooled, prediction);
  const x = scaleLinear(domain, [margin.left + 4, size.width - margin.right - 4]).nice(4);
  const [least, most] = x.domain() as [number, number];
  const lineOf = (i: number) => HEAD + i * row.height + row.line;
  const foot = size.height - FOOT + 4;
  const centre = round(x(pooled.value));
  const [at, next] = [lineOf(rows.length), lineOf(rows.length + 1)];
  return (
    <>
      <BottomAxis
        size={within}
        x={x}
        ticks={x.ticks(size.name === "wide" ? 6 : 4)}
        words={`clean air, ${unitWords(unit)}`}
        grid={size.name === "wide"}
      />
      <path class="pooled-line" d={`M${centre} ${HEAD}V${foot}`} />
      <path class="axis" d={`M0 ${HEAD + rows.length * row.height}H${size.width}`} />
      {rows.map((room, i) => {
        const y = lineOf(i);
        const half = round(2 + 4 * Math.sqrt(room.weight));
        return (
          <g>
            <Words size={size} at={i} name={room.name} about={room.about} figure={range(room)} />
            <path class="room-line" d={whisker(room, { least, most, x, y })} />
            <path
              class="room"
              d={`M${round(x(room.value) - half)} ${round(y - half)}h${2 * half}v${2 * half}h${-2 * half}z`}
            />
          </g>
        );
      })}
      <Words
        size={size}
        at={rows.length}
        name="All together"
        about={rows.length === 1 ? "with how laboratories differ" : "pooled, with how laboratories differ"}
        figure={range(pooled)}
      />
      <path
        class="pooled"
        d={`M${round(x(pooled.low))} ${at}L${centre} ${at - 8}L${round(x(pooled.high))} ${at}L${centre} ${at + 8}z`}
      />
      <Words
        size={size}
        at={rows.length + 1}
        name="In another room"
        about={"by another counter, 95\u00a0% prediction"}
        figure={between(prediction)}
      />
      <path
        class="prediction"
        d={`M${round(x(prediction.low))} ${next - 6}v12m0-6H${round(x(prediction.high))}m0-6v12`}
      />
    </>
  );
}

/** Two lines of words beside a row, or above it on a narrow screen, and its figure at the right. */
function Words(it: { size: Size; at: number; name: string; about: string; figure: string }) {
  const row = ROW[it.size.name];
  const top = HEAD + it.at * row.height;
  const isWide = it.size.name === "wide";
  const room = isWide ? row.line1 : row.line1 - it.figure.length - 1;
  return (
    <>
      <text class="name halo" x="0" y={top + row.name}>
        {shortened(it.name, room)}
      </text>
      <text class="halo" x="0" y={top + row.about}>
        {shortened(it.about, row.line2)}
      </text>
      <text class="name halo" x={it.size.width} y={top + (isWide ? row.line + 4 : row.name)} text-anchor="end">
        {it.figure}
      </text>
    </>
  );
}

/** A room known by two readings may have an interval that would press all others flat: it is cut off beyond this. */
const MOST_OVER = 2;

function domainOf(rows: readonly Interval[], pooled: Interval, prediction: Props["prediction"]): [number, number] {
  const inner = Math.max(pooled.high, prediction.high, ...rows.map(({ value }) => value));
  const outer = Math.max(inner, ...rows.map(({ high }) => high));
  const under = Math.min(0, pooled.low, prediction.low, ...rows.map(({ value }) => value));
  const lowest = Math.min(under, ...rows.map(({ low }) => low));
  return [Math.max(lowest, under - inner), Math.min(outer, MOST_OVER * inner)];
}

/** From end to end; where it goes on beyond the drawing, an arrow says so. */
function whisker(
  { low, high }: Interval,
  { least, most, x, y }: { least: number; most: number; x: (value: number) => number; y: number },
): string {
  const [left, right] = [round(x(Math.max(low, least))), round(x(Math.min(high, most)))];
  const start = low < least ? `M${left + 6} ${y - 4}l-6 4l6 4m-6-4` : `M${left} ${y}`;
  return `${start}H${right}${high > most ? "m-6-4l6 4l-6 4" : ""}`;
}
