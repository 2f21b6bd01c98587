import type { PinnedTrial } from "../../wire/pinned.ts";
import { volumeOut } from "../../wire/volume-out.ts";
import { AEROSOL_WORDS } from "../aerosol-words.ts";
import { PAIRED_WORDS } from "../basis-words.ts";
import { BudgetBars } from "../charts/budget-bars.tsx";
import { BAND_WORDS, INTEREST_WORDS } from "../figures.ts";
import { Between, inUnit, Quantity } from "../quantity.tsx";
import type { Reader } from "../reader.ts";
import { Findings, SeriousNote } from "../trial/findings.tsx";
import { NATURAL_WORDS } from "../trial/record-words.ts";
import { sourceWords } from "../trial/source-words.ts";

interface Props {
  readonly pinned: PinnedTrial;
  /** Whether it was said otherwise since who paid. */
  readonly isCorrected: boolean;
  readonly reader: Reader;
}

/** What one test found in one band, and what is to be known about it. */
export function PinnedTrialPart({ pinned, isCorrected, reader }: Props) {
  const { room, natural, findings, band, budget, monte_carlo: draws } = pinned;
  const kind = band in BAND_WORDS ? ("standard" as const) : ("channel" as const);
  const told = [{ band: { kind, name: band }, findings }];
  return (
    <>
      <p>
        Clean air delivery rate (CADR) of one test: in this room, by{" "}
        {pinned.counters === 1 ? "this counter" : "these counters"}, on that day. ± is the 95&nbsp;% interval of that
        claim alone; another room and counter may find something else.
      </p>
      <SeriousNote results={told} />
      <dl>
        <dt>Test</dt>
        <dd>
          <a href={`/trials/${pinned.trial}`}>{pinned.trial}</a>, revision {pinned.revision}, of{" "}
          {pinned.performed_at.slice(0, 10)}
        </dd>
        <dt>Who paid</dt>
        <dd>
          {INTEREST_WORDS[pinned.interest] ?? pinned.interest}
          {isCorrected && ": so it was said then, and corrected since"}
        </dd>
        <dt>Aerosol</dt>
        <dd>{(AEROSOL_WORDS as Readonly<Record<string, string>>)[pinned.aerosol] ?? pinned.aerosol}</dd>
        <dt>Room</dt>
        <dd>
          <Quantity of={volumeOut(room.volume)} />
        </dd>
        <dt>Air changes added</dt>
        <dd>
          <Quantity of={pinned.air_changes} />
        </dd>
        <dt>Total decay</dt>
        <dd>
          <Quantity of={pinned.total.k} />
        </dd>
        <dt>Natural loss</dt>
        <dd>
          <Quantity of={natural.k} />, {NATURAL_WORDS[natural.source]}, {pinned.paired ? "paired" : "not paired"}
        </dd>
        {draws && (
          <>
            <dt>By draws of all inputs</dt>
            <dd>
              <Between of={inUnit({ ...draws, value: (draws.low + draws.high) / 2 }, reader.flow)} />
            </dd>
          </>
        )}
      </dl>
      <p class="quiet">Paired: {PAIRED_WORDS}.</p>
      <Findings reader={reader} several={false} results={told} unitOf={() => (band === "mass" ? "µg/m³" : "per cm³")} />
      <BudgetBars
        caption="What the uncertainty is made of"
        budget={budget}
        wordsOf={(source) => sourceWords(source, natural.source)}
        flow={reader.flow}
      />
    </>
  );
}
