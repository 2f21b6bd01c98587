import { two, unitWords } from "./figures.ts";

/** The largest change that leaving one tester out makes. */
export function Moved({ by: { value, unit } }: { readonly by: { readonly value: number; readonly unit: string } }) {
  const way = value < 0 ? "downwards" : "upwards";
  return (
    <small>
      by {two(Math.abs(value))}&nbsp;{unitWords(unit)} at most, {way}: worked out from the tests there are, with no
      interval of its own.
    </small>
  );
}
