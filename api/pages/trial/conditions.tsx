import type { Child } from "hono/jsx";
import type { TrialView } from "../../views.ts";
import { volumeOut } from "../../wire/volume-out.ts";
import { aerosolWords } from "../aerosol-words.ts";
import { INTEREST_WORDS, instant } from "../figures.ts";
import { Missing, Quantity } from "../quantity.tsx";
import { CounterWords } from "./counter-words.tsx";
import { BASIS_WORDS, FAN_WORDS, VENTILATION_WORDS } from "./record-words.ts";
import { Stated } from "./stated.tsx";

/** All that the record says of how it was tested; what it does not say is named at the end. */
export function Conditions({ trial }: { trial: TrialView }) {
  const { room, aerosol, filter_state: filter, submitter, counters, power } = trial;
  const rows: [string, Child | null][] = [
    ["Tested", instantOf(trial.performed_at)],
    ["Stored", instant(trial.created_at)],
    ["By", <bdi>{submitter.handle ?? submitter.id}</bdi>],
    ["Who paid", INTEREST_WORDS[trial.interest]],
    ["Specimen", wordsOf(trial.specimen)],
    [
      "Filter",
      filter ? [filter.condition, filter.hours && `${filter.hours} h of use`].filter(Boolean).join(", ") : null,
    ],
    ["Room", wordsOf(room.label)],
    ["Air volume", <Volume trial={trial} />],
    ["Ventilation", VENTILATION_WORDS[room.ventilation ?? "unknown"]],
    ["Mixing fan", FAN_WORDS[room.mixing_fan ?? "unknown"]],
    ...trial.runs
      .filter((run) => run.mixing_fan ?? run.ventilation)
      .map(({ n, mixing_fan: fan, ventilation }): [string, Child] => {
        const words = [
          fan && `mixing fan ${FAN_WORDS[fan]}`,
          ventilation && `ventilation ${VENTILATION_WORDS[ventilation]}`,
        ];
        return [`In log ${n + 1}`, words.filter(Boolean).join(", ")];
      }),
    ["Temperature", room.temperature ? <Stated of={room.temperature} /> : null],
    ["Humidity", room.relative_humidity ? <Stated of={room.relative_humidity} /> : null],
    [
      "Aerosol",
      aerosol ? (
        <>
          {aerosolWords(aerosol.kind, true)}
          {aerosol.note !== undefined && <>: {wordsOf(aerosol.note)}</>}
        </>
      ) : null,
    ],
    [counters.length > 1 ? "Counters" : "Counter", counters.map((counter) => <CounterWords {...counter} />)],
    ["Power", power ? <Stated of={power} /> : null],
    ["Tests made", trial.trials_made === undefined ? null : `${trial.trials_made}, published or not`],
    ["Note", wordsOf(trial.note)],
  ];
  const silent = rows.filter(([, value]) => !value).map(([name]) => name.toLowerCase());
  return (
    <section class="conditions">
      <h2>Conditions</h2>
      <dl>
        {rows.map(([name, value]) =>
          value ? (
            <>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </>
          ) : null,
        )}
      </dl>
      <p class="quiet">
        Here ± is twice the standard uncertainty, but for the volume, where it is the 95&nbsp;% interval. What stands
        without ± was stated without one.
        {silent.length > 0 && ` Not stated: ${silent.join(", ")}.`}
      </p>
    </section>
  );
}

/** Personal words: as written, or erased; null where none were given. */
export function wordsOf(words: string | null | undefined): Child | null {
  if (words === undefined) return null;
  return words === null ? <Missing why="erased" /> : <bdi class="words">{words}</bdi>;
}

function Volume({ trial }: { trial: TrialView }) {
  const { volume } = trial.analysis;
  const { length, width, height, displaced_volume: less } = trial.room;
  return (
    <>
      <Quantity of={volumeOut(volume)} />, {BASIS_WORDS[volume.basis]}
      {length && width && height && (
        <>
          : <Stated of={length} /> by <Stated of={width} /> by <Stated of={height} />
          {less && (
            <>
              {" "}
              less <Stated of={less} /> of things
            </>
          )}
        </>
      )}
      {trial.room_corrections.map((correction) => {
        return (
          <p class="correction">
            Corrected on {correction.at.slice(0, 10)} to <Quantity of={volumeOut(correction)} />,{" "}
            {BASIS_WORDS[correction.basis]}
            {correction.reason !== null && (
              <>
                : <bdi>{correction.reason}</bdi>
              </>
            )}
            . Pooled figures use the newest volume; the result on this page keeps the one it was made with.
          </p>
        );
      })}
    </>
  );
}

/** The tester's own clock, to the minute. */
function instantOf(stamp: string): string {
  const [day, clock = ""] = stamp.split("T");
  const zone = /(Z|[+-]\d\d:\d\d)$/.exec(clock)?.[1] ?? "";
  return `${day} ${clock.slice(0, 5)} ${zone === "Z" ? "UTC" : `UTC${zone.replace("-", "−")}`}`;
}
