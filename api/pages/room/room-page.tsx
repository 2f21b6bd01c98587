import type { SizingOut } from "../../wire/sizing.ts";
import type { Asked } from "../form/asked.ts";
import { basisWords } from "../form/size-asked.ts";
import { SIZE_NAMES } from "../form/size-fields.tsx";
import { WrongFields } from "../form/wrong-fields.tsx";
import { Page } from "../page.tsx";
import type { Reader } from "../reader.ts";
import { HearingHint } from "./hearing-hint.tsx";
import { RoomForm } from "./room-form.tsx";
import type { RoomQuestion } from "./room-question.ts";
import { SetsFound } from "./sets-found.tsx";
import { WhatIsNeeded } from "./what-is-needed.tsx";

interface Props {
  readonly reader: Reader;
  readonly asked: Asked;
  /** Null where nothing is asked yet, or something is wrong. */
  readonly answer: { readonly texts: RoomQuestion["texts"]; readonly sizing: SizingOut } | null;
  readonly currency: string;
}

/** What a reader's own room needs, and which cleaners do it at which noise, price and power. */
export function RoomPage({ reader, asked, answer, currency }: Props) {
  return (
    <Page reader={reader} title="My room · Motefall">
      <h1>Which cleaners suit my room?</h1>
      <p>
        Say how large it is and what the air is to do. The answer is how much clean air that takes (CADR, the clean air
        delivery rate), and which sets of tested cleaners bring it, how surely, how loud at your seat, and at what
        price.
      </p>
      <WrongFields asked={asked} names={NAMES} lead="Nothing is worked out yet, because of this:" />
      {answer ? (
        <>
          <WhatIsNeeded {...answer} volumeBasis={basisWords(asked)} />
          <HearingHint asked={asked} sizing={answer.sizing} />
          <SetsFound
            sizing={answer.sizing}
            isQuietestFirst={(answer.texts.sort ?? "noise") === "noise"}
            allHref={asked.texts.show === "all" ? null : allHref(reader)}
          />
          <Cautions of={answer.sizing.cautions} />
          <p class="unprinted">
            As data: <a href={`/v1/sizing?${new URLSearchParams(answer.texts)}`}>the same answer as JSON</a>
          </p>
          <h2>Ask otherwise</h2>
        </>
      ) : (
        <Examples />
      )}
      <RoomForm asked={asked} currency={currency} />
    </Page>
  );
}

/** The same question, with every set that does it. */
function allHref({ href }: Reader): string {
  const url = new URL(href, "http://here");
  url.searchParams.set("show", "all");
  return `${url.pathname}${url.search}#sets`;
}

function Cautions({ of }: { readonly of: readonly string[] }) {
  return (
    <div class="caution">
      <ul>
        {of.map((words) => (
          <li>{words}</li>
        ))}
        <li>
          A room cleaner takes out what is already in the air you breathe. It is no substitute for source capture,
          ventilation or a fitted respirator where wood dust, silica or fumes are made. <a href="/safety">Safety</a>
        </li>
      </ul>
    </div>
  );
}

/** Rooms that things are made in, so that a first answer is one tap away. Sizes are made up. */
const EXAMPLES = [
  ["a shed, 3 × 2.4 × 2.2 m", "in=m&length=3&width=2.4&height=2.2"],
  ["a single garage, 5.4 × 2.8 × 2.4 m", "in=m&length=5.4&width=2.8&height=2.4"],
  ["a garage of 20 × 22 feet, 8 feet high", "in=ft&length=20&width=22&height=8"],
  ["a shared workshop, 90 m² and 3 m high", "in=m&area=90&height=3"],
] as const;

function Examples() {
  return (
    <p>
      For example{" "}
      {EXAMPLES.map(([words, size], i) => (
        <>
          {i > 0 && (i === EXAMPLES.length - 1 ? " or " : ", ")}
          <a href={`/room?${size}&target=air_changes&air_changes=5`}>{words}</a>
        </>
      ))}
      , each with five air changes an hour added.
    </p>
  );
}

const NAMES = {
  ...SIZE_NAMES,
  target: "What the air is to do",
  air_changes: "Air changes",
  reduction: "Per cent gone",
  minutes: "Minutes",
  ratio: "Level with a steady source",
  noise_max: "Noise where you sit",
  distance: "Distance",
  budget: "Price",
  price: "Electricity",
  currency: "Currency",
  hours: "Hours a day",
  probability: "How sure",
  max_units: "Units, at most",
  band: "Particle size",
  kind: "Kind",
  aerosol: "Tested with",
  unpaired: "Single unpaired tests",
  sort: "Order",
};
