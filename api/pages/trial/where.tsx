import type { Place } from "../../read-places.ts";
import type { TrialView } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { counted } from "../counts.ts";
import { BAND_WORDS } from "../figures.ts";

interface Props {
  readonly trial: TrialView;
  readonly drawn: BandResultOut["band"] | null;
  readonly places: readonly Place[];
}

/** What else is known of the cleaner that was tested, and where its figures stand in the list. */
export function Where({ trial: { configuration, setting, state }, drawn, places }: Props) {
  const query = new URLSearchParams({ setting, ...(drawn?.kind === "standard" ? { band: drawn.name } : {}) });
  const counts = state === "listed" || state === "questioned";
  return (
    <>
      <p class="quiet unprinted">
        <a href={`/configurations/${configuration.id}?${query}`}>All tests of this cleaner</a>
      </p>
      {counts && places.length > 0 && (
        <ul class="quiet unprinted places">
          {places.map((place) => (
            <li>
              <Listed place={place} />
              {place.trials > 1 ? `, pooled with ${counted(place.trials - 1, "other test")}` : ", on this test alone"}:{" "}
              <a href={`/entries/${place.id}`}>the figure that is ranked</a>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

/** `Listed 3rd of 7 under mass to 2.5 µm`, or that the list leaves it out. */
function Listed({ place: { band, listed } }: { readonly place: Place }) {
  const words = BAND_WORDS[band];
  if (listed === null) {
    const query = new URLSearchParams({ band, unpaired: "include" });
    return (
      <>
        The list leaves it out under <a href={`/?${query}`}>{words}</a>: a single unpaired test
      </>
    );
  }
  const { rank, rankShared, of } = listed;
  return (
    <>
      Listed {rankShared && "equal "}
      {ordinal(rank)} of {of} under <a href={`/?${new URLSearchParams({ band })}`}>{words}</a>
    </>
  );
}

/** 1st, 2nd, 3rd, 4th … 11th, 21st. */
export function ordinal(rank: number): string {
  const [tens, ones] = [rank % 100, rank % 10];
  const suffix = tens >= 11 && tens <= 13 ? "th" : (["th", "st", "nd", "rd"][ones] ?? "th");
  return `${rank}${suffix}`;
}
