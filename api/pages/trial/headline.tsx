import type { Place } from "../../read-places.ts";
import type { TrialView } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { PAIRED_WORDS } from "../basis-words.ts";
import { bandAtFirst, INTEREST_WORDS, plusMinus, unitWords } from "../figures.ts";
import { inPercent, percentOf } from "../percent.ts";
import { Between, inUnit, Missing, Quantity } from "../quantity.tsx";
import type { Reader } from "../reader.ts";
import { Listed } from "./listed.tsx";
import { NATURAL_WORDS } from "./record-words.ts";

interface Props {
  readonly reader: Reader;
  readonly trial: TrialView;
  /** The band that is drawn below. */
  readonly drawn: string | null;
  readonly addressOf: (band: string) => string;
  /** Where its entries stand in the list; none where it does not count. */
  readonly places: readonly Place[];
}

/** The rate of each standard band, or where there is none of each channel, with who paid beside it. */
export function Headline({ reader, trial, drawn, addressOf, places }: Props) {
  const { results } = trial.analysis;
  const standard = results.filter(({ band }) => band.kind === "standard");
  const shown = standard.length > 0 ? standard : results.slice(0, 3);
  const struck = trial.state === "withdrawn" ? "struck" : undefined;
  if (shown.length === 0) return <p class="figure">No rate could be told: see below why.</p>;
  return (
    <>
      <div class="trial-bands">
        {shown.map((result) => {
          const { band, cadr, expected_elsewhere: elsewhere } = result;
          return (
            <section>
              <h2>
                <bdi>{capital(bandAtFirst(band.name))}</bdi>
              </h2>
              <p class="figure">
                <span class={struck}>{`${plusMinus(inUnit(cadr, reader.flow))} ${unitWords(reader.flow)}`}</span>
              </p>
              <p class="paid">{capital(INTEREST_WORDS[trial.interest]!)}</p>
              {places
                .filter((place) => place.band === band.name && place.trials > 0)
                .map((place) => (
                  <Listed place={place} />
                ))}
              <dl>
                <dt>In another room</dt>
                <dd>{elsewhere ? <Between of={inFlow(elsewhere, reader)} /> : <Missing why="not worked out" />}</dd>
                <dt>Air changes added</dt>
                <dd>
                  <Quantity of={result.air_changes} />
                </dd>
                <dt>Half-life</dt>
                <dd>
                  <Quantity of={result.total.half_life} ranged missing="the rate may be 0" />
                </dd>
                <dt>CADR over stated flow</dt>
                <dd>
                  <Quantity of={result.single_pass && inPercent(result.single_pass)} missing="no flow is stated" />
                </dd>
                <dt>Natural loss</dt>
                <dd>
                  {NATURAL_WORDS[result.natural.source]}, {result.paired ? "paired" : "not paired"}
                </dd>
              </dl>
              <Draws result={result} reader={reader} />
              {band.coverage !== null && band.coverage < 0.995 && (
                <p class="quiet">{`The counter's bins cover ${Math.round(100 * band.coverage)}\u00a0% of the band.`}</p>
              )}
              {shown.length > 1 && (
                <p class="unprinted">
                  {band.name === drawn ? (
                    <span class="quiet">Drawn below</span>
                  ) : (
                    <a href={addressOf(band.name)}>Draw this one</a>
                  )}
                </p>
              )}
            </section>
          );
        })}
      </div>
      <p class="printed">± is the 95&nbsp;% interval of this room, by this counter, on that day.</p>
      <p class="quiet unprinted">
        Clean air delivery rates (CADR) in this room, by {trial.counters.length > 1 ? "these counters" : "this counter"}
        , on that day; ± is the 95&nbsp;% interval of that claim alone. In another room: where another room and counter
        are expected, 95&nbsp;%
        {spreadWords(shown[0]!)}. Air changes per hour are those the cleaner adds, CADR over volume; the half-life is
        that of the total decay, natural loss included. CADR over stated flow is the single-pass efficiency of the
        filters only if as much air as stated goes through them and none of it goes round twice; the flow is taken as
        exact. Paired: {PAIRED_WORDS}.
      </p>
    </>
  );
}

/** The interval by draws, where the usual formula was not taken at its word. */
function Draws({ result: { monte_carlo: draws }, reader }: { result: BandResultOut; reader: Reader }) {
  if (draws === null) return null;
  return (
    <p class="quiet">
      {`${draws.draws.toLocaleString("en").replaceAll(",", "\u00a0")} draws of all inputs give `}
      <Between of={inFlow(draws, reader)} />; they were made because the volume or the rate is known to 20&nbsp;% or
      worse.
    </p>
  );
}

function inFlow({ low, high, unit }: { low: number; high: number; unit: string }, { flow }: Reader) {
  return inUnit({ value: (low + high) / 2, low, high, unit }, flow);
}

function spreadWords({ expected_elsewhere: elsewhere }: BandResultOut): string {
  if (!elsewhere) return "";
  const { relative, source } = elsewhere.spread;
  const held = source === "learnt" ? "found" : "taken";
  return `; laboratories are ${held} to differ by a standard deviation of ${percentOf(relative)}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
