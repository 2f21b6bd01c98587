import type { Channel } from "../../../analysis/trial.ts";
import { parseUnit } from "../../../analysis/units.ts";
import type { TrialView } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { DecayChart } from "../charts/decay-chart.tsx";
import { bandPhrase, figures, INTEREST_WORDS, plusMinus, range } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import type { Reader } from "../reader.ts";
import { channelWords } from "./channel-words.ts";

export interface DrawnRun {
  readonly n: number;
  readonly role: string;
  readonly counter: string;
  readonly tS: Float64Array;
  readonly channel: Channel;
  /** Result of the channel as it is, whose fits are drawn; null where it has none. */
  readonly result: BandResultOut | null;
}

const ROLE_WORDS: Record<string, string> = {
  background: "clean air before the test",
  natural: "natural decay, cleaner off",
  total: "total decay, cleaner on",
  full_log: "one log of everything",
};

/** One trial: what it found, the decays drawn, what went into the uncertainty, the conditions and the raw data. */
export function TrialPage({ reader, trial, runs }: { reader: Reader; trial: TrialView; runs: readonly DrawnRun[] }) {
  const { analysis } = trial;
  const standard = analysis.results.filter(({ band }) => band.kind === "standard");
  const shown = standard.length > 0 ? standard : analysis.results.slice(0, 1);
  const name = [trial.configuration.title, trial.setting].filter(Boolean).join(", ");
  return (
    <Page reader={reader} title={`${name}: trial ${trial.id} · Motefall`}>
      <h1 class={trial.state === "withdrawn" ? "struck" : undefined}>{name}</h1>
      {trial.invented && <InventedNote />}
      {trial.state === "withdrawn" && trial.withdrawn ? (
        <p role="note">
          Withdrawn on {trial.withdrawn.at.slice(0, 10)}: {trial.withdrawn.reason}. It no longer counts.
        </p>
      ) : null}
      {shown.map((result) => (
        <Result result={result} />
      ))}
      {runs.map((run) => (
        <section>
          <h2>
            Run {run.n}: {ROLE_WORDS[run.role]}
            {trial.counters.length > 1 ? `, counter ${run.counter}` : ""}
          </h2>
          <DecayChart
            id={`run-${run.n}`}
            tS={run.tS}
            channel={run.channel}
            phases={analysis.phases.filter(({ run: n }) => n === run.n)}
            natural={run.result?.natural.counters.filter((decay) => decay.run === run.n) ?? []}
            total={run.result?.total.counters.filter((decay) => decay.run === run.n) ?? []}
          />
          <p class="quiet">
            <Legend run={run} />
            <a href={`/v1/trials/${trial.id}/runs/${run.n}/series.csv`}>readings as CSV</a>
          </p>
        </section>
      ))}
      <Conditions trial={trial} />
      {analysis.dropped.length > 0 && (
        <>
          <h2>Left out of the fits</h2>
          <ul>
            {droppedWords(analysis.dropped).map((words) => (
              <li>{words}</li>
            ))}
          </ul>
        </>
      )}
      <p class="quiet">
        As data: <a href={`/v1/trials/${trial.id}`}>/v1/trials/{trial.id}</a>. Method {analysis.method_version},
        revision {trial.revision}, content {trial.sha256.slice(0, 12)}.
      </p>
    </Page>
  );
}

function Result({ result }: { result: BandResultOut }) {
  const { band, cadr, total, natural } = result;
  const { fromBase } = parseUnit("[cft_i]/min");
  const cfm = { value: fromBase(cadr.value), low: fromBase(cadr.low), high: fromBase(cadr.high) };
  return (
    <section>
      <p class="figure">{plusMinus(cadr)} m³/h</p>
      <p class="quiet">
        {plusMinus(cfm)} cfm. Clean air delivery rate for {bandPhrase(band.name)}, in this room by this counter; ± is
        the 95 % interval.
        {band.coverage !== null && band.coverage < 0.995
          ? ` The counter's bins cover ${Math.round(100 * band.coverage)} % of the band.`
          : ""}
      </p>
      <dl>
        <dt>Total decay</dt>
        <dd>
          {plusMinus(total.k)} per hour{total.half_life ? `, half-life ${range(total.half_life)} min` : ""}{" "}
          <small>({total.window.why})</small>
        </dd>
        <dt>Natural decay</dt>
        <dd>
          {plusMinus(natural.k)} per hour, {NATURAL_WORDS[natural.source]}
          {result.paired ? ", paired" : ", not paired"}
        </dd>
        <dt>What the uncertainty is made of</dt>
        <dd>
          {[...result.budget]
            .sort((a, b) => b.share - a.share)
            .map(
              ({ source, u, share }) =>
                `${source.replaceAll("_", " ")} ${figures(u, u).value} m³/h (${Math.round(100 * share)} %)`,
            )
            .join(", ")}
        </dd>
      </dl>
      {result.findings.length > 0 && (
        <ul class="findings">
          {result.findings.map(({ severity, message }) => (
            <li class={severity}>{message}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

const NATURAL_WORDS = { measured: "measured", other_day: "measured on another day", assumed: "assumed, not measured" };

function Legend({ run }: { run: DrawnRun }) {
  if (!run.result) return <>Points: readings of {channelWords(run.channel)}. </>;
  return (
    <>
      Points: readings of {channelWords(run.channel)}; lines: fitted natural decay (brown) and total decay (blue);
      shaded: the windows used.{" "}
    </>
  );
}

function Conditions({ trial }: { trial: TrialView }) {
  const { room, aerosol, filter_state: filter, analysis } = trial;
  const { value, expanded } = figures(analysis.volume.value, 2 * analysis.volume.u);
  const rows: [string, string | undefined | null][] = [
    ["Performed", trial.performed_at],
    ["By", trial.submitter.handle ?? trial.submitter.id],
    ["Who paid", INTEREST_WORDS[trial.interest]],
    ["Specimen", trial.specimen],
    [
      "Filter",
      filter && [filter.condition, filter.hours === undefined ? "" : `${filter.hours} h`].filter(Boolean).join(", "),
    ],
    ["Room", room.label],
    ["Air volume", `${value} ± ${expanded} m³, ${VOLUME_WORDS[analysis.volume.basis]}`],
    ["Ventilation", room.ventilation],
    ["Mixing fan", room.mixing_fan],
    ["Aerosol", [aerosol?.kind.replaceAll("_", " "), aerosol?.note].filter(Boolean).join(": ")],
    ["Counters", trial.counters.map(counterWords).join("; ")],
    ["Trials made", trial.trials_made === undefined ? null : `${trial.trials_made}, published or not`],
    ["Note", trial.note],
  ];
  return (
    <>
      <h2>Conditions</h2>
      <dl>
        {rows.map(([name, value]) =>
          value ? (
            <>
              <dt>{name}</dt>
              <dd>
                <bdi>{value}</bdi>
              </dd>
            </>
          ) : null,
        )}
      </dl>
    </>
  );
}

const VOLUME_WORDS = {
  stated: "uncertainty stated by the tester",
  measured_sides: "from its sides, 2 % assumed",
  estimate: "5 % assumed",
};

function counterWords({ id, principle, model, position }: TrialView["counters"][number]): string {
  return [id, model, principle?.replaceAll("_", " "), position].filter(Boolean).join(", ");
}

/** One line a run and reason, with the channels it concerns. */
function droppedWords(dropped: TrialView["analysis"]["dropped"]): string[] {
  const groups = Map.groupBy(dropped, ({ run, reason }) => `Run ${run}, ${reason.replaceAll("-", " ")}`);
  return [...groups].map(([name, drops]) => {
    const counts = drops.map(({ channel, count }) => (channel === null ? `${count}` : `${channel} ${count}`));
    return `${name}: ${counts.join(", ")}`;
  });
}
