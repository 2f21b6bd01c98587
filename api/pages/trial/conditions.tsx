import type { Child } from "hono/jsx";
import type { TrialView } from "../../views.ts";
import { figures, INTEREST_WORDS, instant } from "../figures.ts";
import { AEROSOL_WORDS } from "../leaderboard/filter-words.ts";
import { Missing } from "../quantity.tsx";
import { CounterWords } from "./counter-words.tsx";
import { BASIS_WORDS, FAN_WORDS, VENTILATION_WORDS } from "./record-words.ts";
import { Stated } from "./stated.tsx";

/** All that the record says of how it was tested. */
export function Conditions({ trial }: { trial: TrialView }) {
  const { room, aerosol, filter_state: filter, submitter } = trial;
  const sides = [room.length, room.width, room.height].filter((side) => side !== undefined);
  const filterWords = filter && [filter.condition, filter.hours === undefined ? null : `${filter.hours} h of use`];
  const rows: [string, Child][] = [
    ["Tested", instantOf(trial.performed_at)],
    ["Stored", instant(trial.created_at)],
    ["By", <bdi>{submitter.handle ?? submitter.id}</bdi>],
    ["Who paid", INTEREST_WORDS[trial.interest]],
    ["Specimen", <Words of={trial.specimen} />],
    ["Filter", filterWords?.filter(Boolean).join(", ") || <Missing why="not stated" />],
    ["Room", <Words of={room.label} />],
    ["Air volume", <Volume trial={trial} />],
    [
      "Sides",
      sides.length === 3 ? (
        <>
          <Stated of={sides[0]!} /> by <Stated of={sides[1]!} /> by <Stated of={sides[2]!} />
          {room.displaced_volume && (
            <>
              , less <Stated of={room.displaced_volume} /> of things
            </>
          )}
        </>
      ) : (
        <Missing why="not stated: the volume was" />
      ),
    ],
    ["Ventilation", VENTILATION_WORDS[room.ventilation ?? "unknown"]],
    ["Mixing fan", FAN_WORDS[room.mixing_fan ?? "unknown"]],
    ["Otherwise in", <OtherwiseIn trial={trial} />],
    ["Temperature", room.temperature ? <Stated of={room.temperature} /> : <Missing why="not stated" />],
    ["Humidity", room.relative_humidity ? <Stated of={room.relative_humidity} /> : <Missing why="not stated" />],
    [
      "Aerosol",
      <>
        {AEROSOL_WORDS[(aerosol?.kind ?? "other") as keyof typeof AEROSOL_WORDS]}
        {aerosol && "note" in aerosol && (
          <>
            : <Words of={aerosol.note} />
          </>
        )}
      </>,
    ],
    [
      trial.counters.length > 1 ? "Counters" : "Counter",
      trial.counters.map((counter) => <CounterWords {...counter} />),
    ],
    ["Power", trial.power ? <Stated of={trial.power} /> : <Missing why="not measured" />],
    [
      "Trials made",
      trial.trials_made === undefined ? <Missing why="not stated" /> : `${trial.trials_made}, published or not`,
    ],
    ["Note", <Words of={trial.note} />],
  ];
  return (
    <section class="conditions">
      <h2>Conditions</h2>
      <p class="quiet">What stands without ± was stated without an uncertainty.</p>
      <dl>
        {rows.map(([name, value]) =>
          name === "Otherwise in" && trial.runs.every(sameAir) ? null : (
            <>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </>
          ),
        )}
      </dl>
    </section>
  );
}

/** Personal words: as written, erased (null), or never given. */
export function Words({ of }: { readonly of: string | null | undefined }) {
  if (of === undefined) return <Missing why="not stated" />;
  return of === null ? <Missing why="erased" /> : <bdi class="words">{of}</bdi>;
}

function Volume({ trial }: { trial: TrialView }) {
  const { volume } = trial.analysis;
  const { value, expanded } = figures(volume.value, 2 * volume.u);
  return (
    <>
      <span class="q">{`${value} ± ${expanded} m³`}</span>, {BASIS_WORDS[volume.basis]}
      {trial.room_corrections.map((correction) => {
        const now = figures(correction.value, 2 * correction.u);
        return (
          <p class="correction">
            Corrected on {correction.at.slice(0, 10)} to <span class="q">{`${now.value} ± ${now.expanded} m³`}</span>,{" "}
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

type RunOf = TrialView["runs"][number];

function sameAir(run: RunOf): boolean {
  return run.mixing_fan === undefined && run.ventilation === undefined;
}

function OtherwiseIn({ trial }: { trial: TrialView }) {
  return (
    <>
      {trial.runs
        .filter((run) => !sameAir(run))
        .map(({ n, mixing_fan: fan, ventilation }) => {
          const words = [
            fan && `mixing fan ${FAN_WORDS[fan]}`,
            ventilation && `ventilation ${VENTILATION_WORDS[ventilation]}`,
          ];
          return `Run ${n}: ${words.filter(Boolean).join(", ")}`;
        })
        .join("; ")}
    </>
  );
}

/** The tester's own clock, to the minute. */
function instantOf(stamp: string): string {
  const [day, clock = ""] = stamp.split("T");
  const zone = /(Z|[+-]\d\d:\d\d)$/.exec(clock)?.[1] ?? "";
  return `${day} ${clock.slice(0, 5)} ${zone === "Z" ? "UTC" : `UTC${zone.replace("-", "−")}`}`;
}
