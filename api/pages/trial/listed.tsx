import type { Place } from "../../read-places.ts";
import { counted } from "../counts.ts";
import { BAND_WORDS } from "../figures.ts";

/** `Listed 3rd of 7 under mass to 2.5 µm`, and with what it is pooled there; or that the list leaves it out. */
export function Listed({ place: { id, band, trials, listed } }: { readonly place: Place }) {
  const others = trials > 1 ? `pooled with ${counted(trials - 1, "other test")}` : "on this test alone";
  return (
    <p class="place unprinted">
      {listed ? (
        <a href={`/?${new URLSearchParams({ band })}`}>
          Listed {listed.rankShared && "equal "}
          {ordinal(listed.rank)} of {listed.of} under {BAND_WORDS[band]}
        </a>
      ) : (
        <>
          <a href={`/?${new URLSearchParams({ band, unpaired: "include" })}`}>Left out of the list</a>, as a single
          unpaired test
        </>
      )}
      , <a href={`/entries/${id}`}>{others}</a>
    </p>
  );
}

/** 1st, 2nd, 3rd, 4th … 11th, 21st. */
function ordinal(rank: number): string {
  const [tens, ones] = [rank % 100, rank % 10];
  const suffix = tens >= 11 && tens <= 13 ? "th" : (["th", "st", "nd", "rd"][ones] ?? "th");
  return `${rank}${suffix}`;
}
