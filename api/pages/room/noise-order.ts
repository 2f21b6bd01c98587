import { noiseDifference } from "../../measured-difference.ts";
import type { QuantityOut } from "../../wire/quantity.ts";
import type { SizedSet } from "../../wire/sizing.ts";
import { plusMinus } from "../figures.ts";

type Sounding = Pick<SizedSet, "noise">;

/** How sure the order of sets is that stand quietest first: which of them can be told from the first. Null of fewer than two. */
export function noiseOrderWords(sets: readonly Sounding[]): string | null {
  const [first, ...others] = sets.filter(({ noise }) => noise?.value != null);
  if (!first) return sets.length > 1 ? "Of none a level of noise is known, so this is no order of noise." : null;
  const apart = others.map((other) => noiseDifference(other.noise, first.noise)!);
  const [next, ...rest] = apart;
  if (!next) return sets.length > 1 ? "Of one alone a level of noise is known; the others stand below it." : null;
  const order = isTold(next) ? "the first is the quieter" : "which of these two is the quieter cannot be told";
  const untold = rest.filter((difference) => !isTold(difference)).length;
  const further = rest.length === 1 ? "the one after them" : `the ${rest.length} after them`;
  const either = isTold(next) ? "" : " either";
  const tail =
    untold === 0
      ? `; ${further} ${rest.length === 1 ? "is" : "are"} louder than the first`
      : `; ${rest.length === 1 ? further : `${untold} of ${further}`} cannot be told from the first${either}`;
  return `Quietest first, of those measured: the second is louder than the first by ${plusMinus(next)} dB (95\u00a0%), so ${order}${rest.length > 0 ? tail : ""}.`;
}

/** Whether the quietest near miss is quieter than every set that does. Null where the levels are not known. */
export function quieterWords(nearMisses: readonly Sounding[], sets: readonly Sounding[]): string | null {
  const quietest = (of: readonly Sounding[]) =>
    of.filter(({ noise }) => noise?.value != null).sort((a, b) => a.noise!.value! - b.noise!.value!)[0];
  const [near, first] = [quietest(nearMisses), quietest(sets)];
  const quieter = near && first && noiseDifference(first.noise, near.noise);
  if (!quieter || quieter.value <= 0) return null;
  const by = `The quietest of these is quieter than the quietest set above by ${plusMinus(quieter)} dB (95\u00a0%)`;
  return isTold(quieter) ? `${by}.` : `${by}, so that it is not sure to be quieter at all.`;
}

function isTold({ low, high }: QuantityOut): boolean {
  return low > 0 || high < 0;
}
