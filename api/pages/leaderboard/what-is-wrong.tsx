import { WrongFields } from "../form/wrong-fields.tsx";
import type { Question } from "./question.ts";

/** What an address asks that cannot be understood: said at once, and again beside each field. */
export function WhatIsWrong({ question }: { readonly question: Question }) {
  return (
    <>
      <WrongFields
        asked={question}
        names={FIELDS}
        lead="Nothing is listed, because something that was asked could not be understood:"
      />
      {question.nearMisses.map(({ sent, known }) => (
        <p class="quiet">
          The address asks for <bdi>{sent.slice(0, 60)}</bdi>, which means nothing here. Was {known} meant?
        </p>
      ))}
    </>
  );
}

/** What each field of the form is called. */
const FIELDS: Record<string, string> = {
  band: "Particle size",
  noise_max: "Noise",
  cost_max: "Price",
  currency: "Currency",
  power_max: "Power",
  kind: "Kind",
  basis: "Tests that count",
  aerosol: "Tested with",
  min_rooms: "Rooms",
  sort: "Order",
  unpaired: "Unpaired tests",
  invented: "Invented results",
};
