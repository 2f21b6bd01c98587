import type { Child } from "hono/jsx";
import { oneLine } from "../citation/reference.ts";
import { bandPhrase, unitWords } from "../pages/figures.ts";
import { figureText } from "../pages/quantity.tsx";
import { paidWords } from "../pages/who-paid.tsx";
import type { PinnedResult } from "../wire/pinned.ts";
import { wrap } from "./fit-text.ts";
import { themed } from "./themed.ts";
import type { Theme } from "./themes.ts";
import { warnings } from "./warnings.ts";

/** The width of drawings in the pages, with a margin. */
const WIDTH = 860;
const MARGIN = 24;
export const LINE = 19;

/** Something below the heading of a plot: what is drawn from its own top, and how high it is. */
export interface PlotPart {
  readonly height: number;
  readonly drawn: Child;
}

interface Props {
  readonly result: PinnedResult;
  readonly title: string;
  readonly description: string;
  /** Where the figure comes from, after what it is. */
  readonly from: string;
  readonly parts: readonly PlotPart[];
  readonly theme: Theme;
}

/** A plot that stands alone: whose figure it is, what it says, who paid and what must not be missed; then the drawings; then where it is kept. */
export function plot({ result, title, description, from, parts, theme }: Props): string {
  const { pinned, withdrawn, page, sha256 } = result;
  const { configuration, setting, cadr, cadr_cfm: cfm } = pinned;
  const name = oneLine([configuration.title, setting].filter(Boolean).join(", "));
  const flow = `${figureText(cadr)} ${unitWords(cadr.unit)} (${figureText(cfm)} ${unitWords(cfm.unit)})`;
  const names = wrap(name, 38, 2);
  const must = warnings(result);
  const paid = paidWords(pinned.kind === "trial" ? { [pinned.interest]: 1 } : pinned.interest);
  const heading = [`Clean air delivery rate for ${bandPhrase(pinned.band)}: ${flow}`, `${from}; who paid: ${paid}`];
  const lines = heading.flatMap((line) => wrap(oneLine(line), 66, 2));
  const linesFrom = 26 + 27 * names.length;
  const mustFrom = linesFrom + LINE * lines.length;
  const bodyFrom = mustFrom + LINE * must.length + 6;
  const foot = bodyFrom + parts.reduce((sum, { height }) => sum + height, 0) + LINE;
  const [width, height] = [WIDTH + 2 * MARGIN, foot + LINE];
  let at = bodyFrom;
  const drawing = (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      width={width}
      height={height}
      viewBox={`${-MARGIN} 0 ${width} ${height}`}
      role="img"
      aria-labelledby="title desc"
      font-family="Georgia, 'Iowan Old Style', 'Times New Roman', serif"
      font-size="13"
      fill={theme.soft}
    >
      <title id="title">{`${name}: ${title}`}</title>
      <desc id="desc">{[...must.map((line) => `${line}.`), `${flow}.`, description].join(" ")}</desc>
      <rect x={-MARGIN} width={width} height={height} fill={theme.paper} />
      {names.map((line, i) => (
        <text y={34 + 27 * i} font-size="21" fill={theme.ink} text-decoration={withdrawn ? "line-through" : undefined}>
          {line}
        </text>
      ))}
      {lines.map((line, i) => (
        <text y={linesFrom + 4 + LINE * i} fill={theme.ink}>
          {line}
        </text>
      ))}
      {must.map((line, i) => (
        <text y={mustFrom + 4 + LINE * i} fill={theme.bad}>
          {line}
        </text>
      ))}
      {parts.map(({ height: high, drawn }) => {
        at += high;
        return <g transform={`translate(0 ${at - high})`}>{drawn}</g>;
      })}
      <text y={foot}>{`${page.replace(/^https?:\/\//, "")} · SHA-256 ${sha256.slice(0, 12)}`}</text>
    </svg>
  );
  return themed(String(drawing), theme);
}

/** Words below or above a drawing, on as many lines as they take. */
export function wordsPart(words: string, fill?: string): PlotPart {
  const lines = wrap(oneLine(words), 64, 6);
  const drawn = lines.map((line, i) => (
    <text y={LINE * (i + 1)} fill={fill}>
      {line}
    </text>
  ));
  return { height: LINE * lines.length + 10, drawn };
}
