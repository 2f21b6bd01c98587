import type { Sent } from "../../views.ts";
import { figures, unitWords } from "../figures.ts";

/** A quantity as its tester stated it, with U = 2u where they stated a u: none is made up for them. */
export function Stated({ of: { value, unit, u } }: { readonly of: Sent }) {
  const words = SENT_WORDS[unit] ?? unitWords(unit);
  if (u === undefined) return <bdi class="stated">{`${plain(value)} ${words}`}</bdi>;
  const shown = figures(value, 2 * u);
  return <bdi class="q">{`${shown.value} ± ${shown.expanded} ${words}`}</bdi>;
}

const SENT_WORDS: Readonly<Record<string, string>> = {
  m3: "m³",
  ft3: "ft³",
  "[cft_i]": "ft³",
  "[ft_i]": "ft",
  Cel: "°C",
  "[degF]": "°F",
};

function plain(value: number): string {
  return String(Number(value.toPrecision(6))).replace("-", "−");
}
