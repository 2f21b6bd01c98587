import { scaleLinear } from "d3-scale";
import { unitWords } from "../pages/figures.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import { element, text } from "./svg.ts";
import type { Theme } from "./themes.ts";

const WIDTH = 1072;

/** The 95 % interval on a scale from 0; for an entry, thinner, where another laboratory is expected. */
export function intervalRule(pinned: PinnedResult["pinned"], theme: Theme, left: number, top: number): string {
  const { cadr } = pinned;
  const prediction = pinned.kind === "entry" ? pinned.prediction : null;
  const least = Math.min(0, cadr.low);
  const most = Math.max(cadr.high, prediction?.high ?? 0, 1e-9) * 1.08;
  const scale = scaleLinear([least, most], [left, left + WIDTH]).nice(6);
  const y = top + 8;
  const line = (low: number, high: number, width: number) =>
    element("line", { x1: at(low), x2: at(high), y1: y, y2: y, stroke: theme.total, "stroke-width": width });
  const at = (value: number) => Math.round(10 * scale(value)) / 10;
  const ticks = scale.ticks(6).map((tick) => [
    element("line", {
      x1: at(tick),
      x2: at(tick),
      y1: top + 16,
      y2: top + 24,
      stroke: theme.soft,
      "stroke-width": 1,
    }),
    element(
      "text",
      {
        x: at(tick),
        y: top + 46,
        "font-size": 20,
        fill: theme.soft,
        "text-anchor": tick === scale.domain()[0] ? "start" : "middle",
      },
      text(String(tick).replace("-", "−")),
    ),
  ]);
  return element("g", {}, [
    element("line", { x1: left, x2: left + WIDTH, y1: top + 16, y2: top + 16, stroke: theme.line, "stroke-width": 1 }),
    ...ticks.flat(),
    element(
      "text",
      { x: left + WIDTH, y: top - 6, "font-size": 20, fill: theme.soft, "text-anchor": "end" },
      text(unitWords(cadr.unit)),
    ),
    ...(prediction ? [line(prediction.low, prediction.high, 3)] : []),
    line(cadr.low, cadr.high, 10),
    element("circle", { cx: at(cadr.value), cy: y, r: 9, fill: theme.paper, stroke: theme.total, "stroke-width": 4 }),
  ]);
}
