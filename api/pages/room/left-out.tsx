import type { SizingOut } from "../../wire/sizing.ts";
import { UNPAIRED_WORDS } from "../basis-words.ts";

/** How many entries are not among the sets, and why. */
export function LeftOut({ excluded }: Pick<SizingOut, "excluded">) {
  const reasons = Object.entries(excluded);
  if (reasons.length === 0) return null;
  return (
    <ul>
      {reasons.map(([reason, count]) => (
        <li>{`${count} left out: ${WORDS[reason] ?? reason.replaceAll("_", " ")}.`}</li>
      ))}
    </ul>
  );
}

const WORDS: Record<string, string> = {
  single_unpaired: `resting on a single unpaired test (${UNPAIRED_WORDS})`,
  mixed_aerosol: "tested with other aerosols too, and the tests are pooled",
  too_weak: "too weak or too little known, with as many units as are allowed",
  too_loud: "louder at the seat than asked for, one alone",
  enough_too_loud: "louder at the seat than asked for, in as many units as reach it so surely; one alone is not",
  no_noise: "no noise measured, so none that can be held against the limit",
  noise_bound: "only a level that the noise stays under is known, and that is over the limit",
  enough_noise_bound:
    "only a level that the noise stays under is known, and that of as many units as reach it is over the limit",
  too_dear: "dearer than asked for, one alone",
  enough_too_dear: "dearer than asked for, in as many units as reach it so surely; one alone is not",
  no_cost: "no price stated",
  other_currency: "priced in another currency, and money is not converted",
  no_power: "no power measured",
  too_hungry: "taking more power than asked for, one alone",
  enough_too_hungry: "taking more power than asked for, in as many units as reach it so surely; one alone does not",
};
