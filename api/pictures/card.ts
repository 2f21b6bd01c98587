import { oneLine } from "../citation/reference.ts";
import { AEROSOL_WORDS } from "../pages/aerosol-words.ts";
import { testWords } from "../pages/counts.ts";
import { bandPhrase, unitWords } from "../pages/figures.ts";
import { figureText } from "../pages/quantity.tsx";
import { paidWords } from "../pages/who-paid.tsx";
import { correctedInterest } from "../pins/corrected-words.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import { drawable, wrap } from "./fit-text.ts";
import { intervalRule } from "./interval-rule.ts";
import { element, text } from "./svg.ts";
import type { Theme } from "./themes.ts";
import { warnings } from "./warnings.ts";

/** The size that link previews ask for (Open Graph; common practice, no source). */
export const CARD = { width: 1200, height: 630 } as const;
const LEFT = 64;
const RIGHT = CARD.width - LEFT;

/** A pinned result as a picture of its own: what it is a CADR of, value and interval in both units, how many tests, who paid. */
export function card(result: PinnedResult, theme: Theme): string {
  const { pinned, sha256, page, withdrawn } = result;
  const { configuration, setting, cadr, cadr_cfm } = pinned;
  const title = wrap(shown([configuration.title, setting].filter(Boolean).join(", ")), 22, 2);
  const flow = `${figureText(cadr)} ${unitWords(cadr.unit)}`;
  const size = flow.length > 22 ? 62 : 84;
  const top = title.length === 1 ? 156 : 130;
  const struck: Record<string, string> = withdrawn ? { "text-decoration": "line-through" } : {};
  const paid = correctedInterest(result);
  const lines = [
    `CADR for ${bandPhrase(pinned.band)}, ${aerosolOf(result)}`,
    ...(pinned.kind === "trial"
      ? ["One test: its 95 % interval is about this room and counter"]
      : [`${oneLine(testWords(pinned))}: 95 % interval between laboratories`]),
    paid
      ? `Who paid, as corrected: ${paidWords(paid)}`
      : `Who paid: ${paidWords(pinned.kind === "trial" ? { [pinned.interest]: 1 } : pinned.interest)}`,
  ];
  return element(
    "svg",
    { xmlns: "http://www.w3.org/2000/svg", ...CARD, viewBox: `0 0 ${CARD.width} ${CARD.height}` },
    element("title", {}, text(shown(`Clean air delivery rate of ${configuration.title}: ${flow}`))),
    element("rect", { ...CARD, fill: theme.paper }),
    element("g", { fill: theme.ink, "font-family": "'Source Serif 4', Georgia, serif" }, [
      words(LEFT, 72, 26, theme.soft, "Motefall: clean air, measured by volunteers"),
      ...title.map((line, i) => words(LEFT, top + 54 * i, 46, theme.ink, line)),
      element("text", { x: LEFT, y: 296, "font-size": size, ...BOLD, ...struck }, text(flow)),
      words(LEFT, 342, 34, theme.soft, `${figureText(cadr_cfm)} ${unitWords(cadr_cfm.unit)}`),
      intervalRule(pinned, theme, LEFT, 376),
      ...lines
        .flatMap((line) => wrap(shown(line), 39, 1))
        .map((line, i) => words(LEFT, 462 + 38 * i, 27, theme.ink, line)),
      ...warnings(result).map((line, i) =>
        element(
          "text",
          { x: RIGHT, y: 72 + 36 * i, "font-size": 28, fill: theme.bad, "text-anchor": "end", ...BOLD },
          text(line),
        ),
      ),
      words(LEFT, 596, 22, theme.soft, `${page.replace(/^https?:\/\//, "")} · ${sha256.slice(0, 12)}`),
    ]),
  );
}

const BOLD = { "font-family": "'Source Serif 4 SemiBold', 'Source Serif 4', Georgia, serif", "font-weight": 600 };

function words(x: number, y: number, size: number, fill: string, line: string): string {
  return element("text", { x, y, "font-size": size, fill }, text(line));
}

function aerosolOf({ pinned }: PinnedResult): string {
  const kinds = pinned.kind === "trial" ? [pinned.aerosol] : Object.keys(pinned.aerosols);
  return `aerosol: ${kinds.map((kind) => AEROSOL_WORDS[kind as keyof typeof AEROSOL_WORDS] ?? kind).join(", ")}`;
}

function shown(line: string): string {
  return drawable(oneLine(line));
}
