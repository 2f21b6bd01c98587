import type { TrialView } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { DecayChart } from "../charts/decay-chart.tsx";
import { ResidualChart } from "../charts/residual-chart.tsx";
import type { RunDrawing } from "./draw-runs.ts";
import { type DrawnRun, decayDrawing, leftOutOf } from "./drawn-runs.ts";
import { dropWords } from "./drop-words.ts";
import { bandWords, ROLE_WORDS } from "./record-words.ts";

interface Props {
  readonly trial: TrialView;
  readonly runs: readonly RunDrawing[];
  readonly drawn: BandResultOut["band"] | null;
  /** All that may be drawn. */
  readonly choices: readonly BandResultOut["band"][];
  readonly addressOf: (band: string) => string;
}

/** Each run's readings and fits in one band, with the residuals under it. */
export function Decays({ trial, runs, drawn, choices, addressOf }: Props) {
  const undrawn = new Map<string, number[]>();
  for (const run of runs) if (run.drawn === null) undrawn.set(run.why, [...(undrawn.get(run.why) ?? []), run.n]);
  return (
    <section id="decays">
      <h2>
        Decays
        {drawn && (
          <>
            , <bdi>{choiceWords(drawn, trial)}</bdi>
          </>
        )}
      </h2>
      {choices.length > 1 && (
        <nav aria-label="What is drawn" class="trial-choices unprinted">
          {choices.map((band) => (
            <a href={addressOf(band.name)} aria-current={band.name === drawn?.name ? "true" : undefined}>
              <bdi>{choiceWords(band, trial)}</bdi>
            </a>
          ))}
        </nav>
      )}
      <p class="quiet unprinted">
        On a logarithmic axis an exponential decay is nearly a straight line until it meets the background. Under each
        stands how far the readings lie from the fit: waves or a slope there would say that the decay is no exponential.
      </p>
      <p class="printed">
        Dots: readings; crosses: left out. Dashed: fitted natural decay, cleaner off; full line: fitted total decay,
        cleaner on; shaded: the window of each; dotted: the background it falls towards.
      </p>
      <div class="decays">
        {runs.map(
          ({ n, drawn: readings }) =>
            readings && (
              <section class={`of-${trial.runs[n]!.role}`}>
                <h3>
                  Log {n + 1}: {runWords(trial, n)}
                </h3>
                <Run drawn={readings} trial={trial} band={drawn?.name} />
              </section>
            ),
        )}
      </div>
      {[...undrawn].map(([why, ns]) => (
        <p class="quiet">{`Not drawn: ${ns.length > 1 ? "logs" : "log"} ${ns.map((n) => n + 1).join(", ")}. ${why}`}</p>
      ))}
    </section>
  );
}

function Run({ drawn, trial, band }: { drawn: DrawnRun; trial: TrialView; band: string | undefined }) {
  const drawing = { id: `run-${drawn.run.index}`, ...decayDrawing(trial.analysis, band, drawn) };
  const out = leftOutOf(trial.analysis, drawn);
  return (
    <>
      <DecayChart {...drawing} />
      <ResidualChart {...drawing} />
      {out.length > 0 && <p class="quiet">Left out: {out.map((each) => dropWords(...each)).join(", ")}.</p>}
    </>
  );
}

function choiceWords(band: BandResultOut["band"], trial: TrialView): string {
  const counter = band.name.slice(0, Math.max(0, band.name.indexOf("/")));
  return band.kind === "channel" && trial.counters.length > 1 ? `${counter}: ${bandWords(band)}` : bandWords(band);
}

function runWords(trial: TrialView, n: number) {
  const run = trial.runs[n]!;
  const [from, of] = run.from_run?.split("/runs/") ?? [];
  return (
    <>
      {ROLE_WORDS[run.role]}
      {trial.counters.length > 1 && (
        <>
          , counter <bdi>{run.counter}</bdi>
        </>
      )}
      {from && (
        <>
          , which is log {Number(of) + 1} of <a href={`/trials/${from}`}>{from}</a>
        </>
      )}
    </>
  );
}
