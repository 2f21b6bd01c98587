import { clearanceTimeMinutes } from "../../../analysis/clearance-time.ts";
import { CDC_TABLE } from "../../../analysis/sizing/cdc-table.ts";
import type { SizingOut } from "../../wire/sizing.ts";
import { figures, grouped, plusMinus, unitWords } from "../figures.ts";
import { inUnit, Missing, Quantity, type Shown } from "../quantity.tsx";
import type { RoomQuestion } from "./room-question.ts";

interface Props {
  readonly sizing: SizingOut;
  readonly texts: RoomQuestion["texts"];
  /** Where the ± of the volume comes from. */
  readonly volumeBasis: string;
}

/** What the target asks for in this room, and what it was worked out from. */
export function WhatIsNeeded({ sizing, texts, volumeBasis }: Props) {
  const { needed, volume, natural, distance } = sizing.target;
  const nothing = needed.value <= 0;
  return (
    <>
      <h2>What is needed</h2>
      {nothing ? (
        <p class="figure">Nothing: what settles and leaks by itself does it.</p>
      ) : (
        <p class="figure">
          <Needed of={needed} />
        </p>
      )}
      <p>
        {TARGET_WORDS[sizing.target.kind](texts)}
        {!nothing &&
          sizing.target.kind !== "air_changes" &&
          ` That is ${per(sizing.target.air_changes)} air changes an hour added by the cleaners.`}
        {needed.u > 0 && !nothing && ` ${DOUBT_WORDS[sizing.target.kind]}`}
      </p>
      <p>
        Particles only: solvent and glue vapours pass every filter listed here; what a gas filter holds back, where a
        cleaner has one, is not measured here. <a href="/safety#wood-dust">Fumes</a>
      </p>
      <dl>
        <dt>Volume</dt>
        <dd>
          {known(volume)} m³ ({known(inUnit(volume, "[cft_i]"))} cubic feet)
          {volumeBasis}
        </dd>
        <dt>Natural loss</dt>
        <dd>
          {natural.assumed ? (
            <>
              <span class="q">{lossWords(natural)}</span>, assumed by particle size and ventilation (common practice, no
              source); measured, it would tell more
            </>
          ) : (
            <>{per(natural.value)} per hour, as given; taken as known</>
          )}
        </dd>
        <dt>Seat</dt>
        <dd>{Number(distance.value.toPrecision(3))} m from each unit</dd>
      </dl>
      {!nothing && <ByFormula airChanges={sizing.target.air_changes} />}
    </>
  );
}

function Needed({ of }: { readonly of: SizingOut["target"]["needed"] }) {
  if (of.u > 0) {
    return (
      <>
        <Quantity of={{ ...of, low: Math.max(0, of.low) }} /> of clean air
      </>
    );
  }
  return (
    <>
      {`${per(of.value)} ${unitWords(of.unit)} of clean air `}
      <Missing why="no interval: the size and the loss are taken as exactly known" />
    </>
  );
}

type Texts = RoomQuestion["texts"];

const percent = (text: string | undefined) => (text ?? "").replace("%", "\u00a0%");

const TARGET_WORDS: Record<SizingOut["target"]["kind"], (texts: Texts) => string> = {
  air_changes: ({ air_changes }) =>
    `To add ${air_changes} air changes an hour: so many times the room’s volume of clean air, beside what settles and leaks anyway.`,
  clearance: ({ reduction, minutes }) =>
    `To have ${percent(reduction)} gone ${minutes} minutes after the source stops, what settles and leaks by itself included.`,
  ratio: ({ ratio }) =>
    `To hold the level, with a steady source, at ${percent(ratio)} of what it is without a cleaner.`,
};

/** What makes the interval of what is needed. */
const DOUBT_WORDS: Record<SizingOut["target"]["kind"], string> = {
  air_changes: "The interval is that of the volume.",
  clearance: "The interval is that of volume and natural loss.",
  ratio: "The interval is that of volume and natural loss.",
};

/** A loss is never below 0: there its interval is cut off, and its figures are those of the part that is not. */
function lossWords({ value, low, high, unit }: Shown): string {
  const shown = (x: number) => figures(x, high - value).value;
  return `${shown(value)} (${low > 0 ? shown(low) : 0} to ${shown(high)}) ${unitWords(unit)}`;
}

/** What the air changes asked for come to by the formula that others printed a table of. */
function ByFormula({ airChanges }: { readonly airChanges: number }) {
  const after = (removed: number) => per(clearanceTimeMinutes(airChanges, removed));
  return (
    <p class="quiet">
      For comparison, by those {per(airChanges)} air changes an hour alone 99{"\u00a0%"} are gone after {after(0.99)}{" "}
      min and 99.9{"\u00a0%"} after {after(0.999)} min, with perfect mixing, no further source and no other loss: worked
      out as in <a href={CDC_TABLE.url}>{CDC_TABLE.name}</a>.
    </p>
  );
}

/** A volume with its ±, or without one where it is taken as known. */
function known(of: Shown): string {
  return of.high > of.low ? plusMinus(of) : per(of.value);
}

/** Three digits of a figure that is worked out from what was asked. */
function per(value: number): string {
  return grouped(THREE_DIGITS.format(value));
}

const THREE_DIGITS = new Intl.NumberFormat("en-GB", { maximumSignificantDigits: 3, useGrouping: false });
