import { oneLine } from "../citation/reference.ts";
import { bandPhrase, unitWords } from "../pages/figures.ts";
import { figureText } from "../pages/quantity.tsx";
import { paidWords } from "../pages/who-paid.tsx";
import { correctedInterest } from "../pins/corrected-words.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import { drawable, widthEm } from "./fit-text.ts";
import { element, text } from "./svg.ts";
import type { Theme } from "./themes.ts";

const SIZE = 13;
const HEIGHT = 24;
const PAD = 9;

/** One line to stand beside a text: value, interval, size of particles, how many tests, and who paid where a tester did not; it never says more than the figure does. */
export function badge(result: PinnedResult, theme: Theme): string {
  const { pinned, withdrawn } = result;
  const { cadr, invented } = pinned;
  const paid = correctedInterest(result);
  const interest = paid ?? (pinned.kind === "trial" ? { [pinned.interest]: 1 } : pinned.interest);
  const made = pinned.kind === "trial" ? "one test" : `${pinned.trials} ${pinned.trials === 1 ? "test" : "tests"}`;
  const line = [
    ...(withdrawn ? ["withdrawn"] : []),
    ...(invented ? ["invented"] : []),
    ...(paid ? ["corrected"] : []),
    `CADR ${figureText(cadr)} ${unitWords(cadr.unit)}`,
    `for ${bandPhrase(pinned.band)}`,
    made,
    ...(Object.keys(interest).every((kind) => kind === "independent") ? [] : [paidWords(interest)]),
  ];
  const words = drawable(oneLine(line.join(", ")));
  const width = Math.ceil(SIZE * widthEm(words) * 1.04) + 2 * PAD;
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width,
      height: HEIGHT,
      viewBox: `0 0 ${width} ${HEIGHT}`,
      role: "img",
      "aria-label": words,
    },
    element("title", {}, text(words)),
    element("rect", { x: 0.5, y: 0.5, width: width - 1, height: HEIGHT - 1, fill: theme.paper, stroke: theme.soft }),
    element("rect", { x: 0.5, y: 0.5, width: 4, height: HEIGHT - 1, fill: theme.total }),
    element(
      "text",
      {
        x: PAD + 3,
        y: 16.5,
        "font-size": SIZE,
        fill: theme.ink,
        "font-family": "Georgia, 'Source Serif 4', serif",
        textLength: width - 2 * PAD - 3,
        lengthAdjust: "spacingAndGlyphs",
        ...(withdrawn ? { "text-decoration": "line-through" } : {}),
      },
      text(words),
    ),
  );
}
