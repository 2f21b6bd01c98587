import type { Child } from "hono/jsx";
import type { MarkEvent } from "../../../analysis/trial.ts";
import type { DecayOut } from "../../wire/analysis.ts";
import { unitWords } from "../figures.ts";
import { BottomAxis, LeftAxis, logTicks } from "./axes.tsx";
import { channelWords } from "./channel-words.ts";
import { dots, round, type Size } from "./chart.tsx";
import { type DecayDrawing, fitsOf } from "./decay-drawing.ts";
import { type DrawnSpan, drawnSpan } from "./drawn-span.ts";
import { fittedLevel } from "./fitted-level.ts";
import { evenTicks, linearScale, linePath, logScale } from "./scales.ts";
import { thinned } from "./thinned.ts";

/** One run's readings with all that is drawn over them, for a chart of a page or a picture that stands alone. */
export interface DecayPlot extends Pick<DrawnSpan, "use"> {
  readonly title: string;
  readonly description: string;
  /** `most` readings are drawn at most. */
  readonly draw: (size: Size, most?: number) => Child;
  /** What the strokes mean, after what the dots are. */
  readonly legend: string;
}

/** Room above the plot, where the words of the upright axis stand, and heights on a wide and on a narrow screen. */
export const DECAY_SIZE = { top: 30, heights: [326, 266] } as const;

/**
 * Readings on a logarithmic axis over minutes after the first row; null where none lies above zero.
 *
 * Nothing imported here needs a server: the page where a test is added draws its preview in the browser by the same code.
 */
export function decayPlot(drawing: DecayDrawing): DecayPlot | null {
  const sorted = sort(drawing);
  if (sorted === null) return null;
  const { channel, natural, total } = drawing;
  const fits = [
    natural.length > 0 ? `${natural.length} fitted natural` : "",
    total.length > 0 ? `${total.length} fitted total` : "",
  ].filter(Boolean);
  return {
    title: `${channelWords(channel)} against time, logarithmic`,
    description: `Readings over ${Math.round(sorted.minutes[1] - sorted.minutes[0])} minutes, ${fits.join(" and ") || "no fitted"} decay.`,
    draw: (size, most = MOST_POINTS[size.name]) => draw(drawing, sorted, size, most),
    legend: legendOf(drawing, sorted),
    use: sorted.use,
  };
}

/** What is drawn once it is sorted. */
interface Sorted extends DrawnSpan {
  readonly out: readonly number[];
  readonly fits: readonly { readonly phase: "natural" | "total"; readonly decay: DecayOut }[];
  readonly spans: readonly { readonly phase: keyof typeof SPAN_WORDS; readonly fromS: number; readonly toS: number }[];
}

export const MARK_WORDS: Record<MarkEvent, string> = {
  aerosol_end: "feeding ends",
  cleaner_on: "cleaner on",
  cleaner_off: "cleaner off",
  setting_changed: "setting changed",
};

const SPAN_WORDS = { background: "clean air", natural: "natural", total: "total" };
const MOST_POINTS = { wide: 900, narrow: 450 };
const MOST_CROSSES = 120;

function sort(drawing: DecayDrawing): Sorted | null {
  const span = drawnSpan(drawing);
  if (span === null) return null;
  const { tS, channel, phases, leftOut = [] } = drawing;
  const fits = fitsOf(drawing);
  const fitted = new Set<string>(fits.map(({ phase }) => phase));
  const unfitted = phases.filter(({ phase }) => !fitted.has(phase));
  let [low, high] = span.levels;
  // A background far under every reading would only squeeze them: it is then told, not drawn.
  for (const { decay } of fits) {
    if (decay.background.value > span.levels[0] / 5) low = Math.min(low, decay.background.value);
  }
  return {
    ...span,
    levels: [low * 0.8, high * 1.25],
    out: leftOut.filter((i) => Number.isFinite(tS[i]!) && channel.values[i]! > 0),
    fits,
    spans: [
      ...unfitted.map(({ phase, from, to }) => ({ phase, fromS: from, toS: to })),
      ...fits.map(({ phase, decay }) => ({ phase, fromS: decay.window.from, toS: decay.window.to })),
    ],
  };
}

function draw(drawing: DecayDrawing, { use, out, fits, spans, minutes, levels }: Sorted, size: Size, most: number) {
  const { width, height, margin, name } = size;
  const { tS, channel, marks = [] } = drawing;
  const [left, right, top, foot] = [margin.left, width - margin.right, margin.top, height - margin.bottom];
  const x = linearScale(minutes, [left, right]);
  const y = logScale(levels, [foot, top]);
  const at = (i: number) => [x(tS[i]! / 60), y(channel.values[i]!)] as const;
  const inside = (pixels: number, from: number, to: number) => Math.min(to, Math.max(from, pixels));
  const isOut = new Set(out);
  const crosses = thinned(channel.values, MOST_CROSSES, (i) => isOut.has(i))
    .map(at)
    .map(([px, py]) => [round(px), round(inside(py, top + 4, foot - 4))] as const);
  return (
    <g
      data-left={left}
      data-right={right}
      data-top={top}
      data-bottom={foot}
      data-from={minutes[0]}
      data-to={minutes[1]}
    >
      {spans.map(({ phase, fromS, toS }) => {
        const from = inside(x(fromS / 60), left, right);
        const wide = inside(x(toS / 60), left, right) - from;
        return (
          <g>
            <rect
              class={`span-${phase}`}
              x={round(from)}
              y={top}
              width={round(Math.max(1, wide))}
              height={foot - top}
            />
            {wide > 7 * SPAN_WORDS[phase].length && (
              <text class="span-name" x={round(from) + 4} y={phase === "background" ? top + 14 : foot - 7}>
                {SPAN_WORDS[phase]}
              </text>
            )}
          </g>
        );
      })}
      <LeftAxis size={size} y={y} ticks={logTicks(levels)} words={axisWords(channel.unit)} />
      <BottomAxis
        size={size}
        x={x}
        ticks={evenTicks(minutes, name === "wide" ? 9 : 5)}
        words="minutes after the first row"
      />
      <path class="reading" d={dots(thinned(channel.values, most, use).map(at))} />
      <path class="left-out" d={crosses.map(([px, py]) => `M${px - 3} ${py - 3}l6 6m0-6l-6 6`).join("")} />
      {fits.map(({ phase, decay }) => (
        <g>
          <path class={`fit fit-${phase}`} d={curve(decay, x, y)} />
          {decay.background.value >= levels[0] && (
            <path
              class={`level level-${phase}`}
              d={`M${round(x(decay.window.from / 60))} ${round(y(decay.background.value))}H${round(x(decay.window.to / 60))}`}
            />
          )}
        </g>
      ))}
      {marks.map(({ event, tS: seconds }) => (
        <g>
          <path class="mark" d={`M${round(x(seconds / 60))} ${top}V${foot}`} />
          <text class="name mark-name" transform={`translate(${round(x(seconds / 60)) - 4} ${foot - 6}) rotate(-90)`}>
            {MARK_WORDS[event]}
          </text>
        </g>
      ))}
    </g>
  );
}

/** What the upright axis is in; the chart's name says of what. */
function axisWords(unit: string): string {
  return unit === "1" ? "reading, in a unit not stated" : unitWords(unit);
}

/** The fit over its own window; enough steps that no corner shows. */
function curve(decay: DecayOut, x: (minutes: number) => number, y: (level: number) => number): string {
  const { from, to } = decay.window;
  const steps = 40;
  const points = Array.from({ length: steps + 1 }, (_, i): [number, number] => {
    const tS = from + (i / steps) * (to - from);
    return [round(x(tS / 60)), round(y(fittedLevel(decay, tS)))];
  });
  return linePath(points.filter(([, level]) => Number.isFinite(level)));
}

function legendOf({ marks = [] }: DecayDrawing, sorted: Sorted): string {
  const { fits, out, levels } = sorted;
  const has = (phase: string) => fits.some((fit) => fit.phase === phase);
  const under = fits.some(({ decay }) => decay.background.value < levels[0]);
  const parts = [
    out.length > 0 ? `Crosses: left out (${out.length}); those beyond the drawing stand at its edge.` : "",
    has("natural") ? "Dashed: fitted natural decay, cleaner off." : "",
    has("total") ? "Full line: fitted total decay, cleaner on." : "",
    fits.length > 0 ? "Shaded: the window of a fit. Dotted: the background it falls towards" : "",
    fits.length > 0 ? (under ? " (below the drawing where it is not seen)." : ".") : "",
    marks.length > 0 ? " Upright: the tester's marks." : "",
  ];
  return parts.filter(Boolean).join(" ").replaceAll(" .", ".").replaceAll("  ", " ");
}
