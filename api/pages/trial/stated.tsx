import type { Sent } from "../../views.ts";
import { figures, unitWords } from "../figures.ts";

/** A quantity as its tester stated it, with U = 2u where they stated a u: none is made up for them. */
export function Stated({ of: { value, unit, u } }: { readonly of: Sent }) {
  const words = unitWords(unit);
  if (u === undefined) return <bdi class="stated">{`${plain(value)} ${words}`}</bdi>;
  const shown = figures(value, 2 * u);
  return <bdi class="q">{`${shown.value} ± ${shown.expanded} ${words}`}</bdi>;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(6))).replace("-", "−");
}
