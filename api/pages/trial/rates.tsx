import type { BandResultOut, DecayOut } from "../../wire/analysis.ts";
import { plusMinus } from "../figures.ts";
import { Missing, Quantity } from "../quantity.tsx";
import { NATURAL_WORDS } from "./record-words.ts";

/** Total and natural decay of one band: rates, half-lives, windows and why, the line through the logarithms beside. */
export function Rates({ result: { total, natural } }: { result: BandResultOut }) {
  return (
    <section class="scroll" tabindex={0} aria-label="Rates of decay">
      <table class="rates">
        <caption>
          Rates of decay, per hour. The line is the ordinary one through ln(reading − background), for comparison: its
          interval is that of a line alone.
        </caption>
        <thead>
          <tr>
            <th scope="col">Decay</th>
            <th scope="col">Rate, per hour</th>
            <th scope="col">Half-life, min</th>
            <th scope="col">Window, minutes</th>
            <th scope="col">Line, per hour</th>
          </tr>
        </thead>
        <tbody>
          <Row name="Total, cleaner on" k={total.k} halfLife={total.half_life} />
          {total.counters.map((decay) => (
            <DecayRow decay={decay} alone={total.counters.length === 1} />
          ))}
          <Row
            name={`Natural, ${NATURAL_WORDS[natural.source]}`}
            k={natural.k}
            halfLife={natural.half_life}
            why={natural.counters.length === 0 ? "no window: a typical loss" : undefined}
          />
          {natural.counters.map((decay) => (
            <DecayRow decay={decay} alone={natural.counters.length === 1} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

type Rate = BandResultOut["total"]["k"];

function Row({ name, k, halfLife, why }: { name: string; k: Rate; halfLife: Rate | null; why?: string | undefined }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>
        <Quantity of={k} bare />
      </td>
      <td>
        <Quantity of={halfLife} bare ranged missing="the rate may be 0" />
      </td>
      <td>{why && <Missing why={why} />}</td>
      <td />
    </tr>
  );
}

/** One fit; where it stands alone its rate is that of its phase. */
function DecayRow({
  decay: { run, counter, k, window, log_linear: line },
  alone,
}: {
  decay: DecayOut;
  alone: boolean;
}) {
  return (
    <tr class="fit-row">
      <td>
        Run {run}, <bdi>{counter}</bdi>
      </td>
      <td>{alone ? <small>as above</small> : <Quantity of={k} bare />}</td>
      <td />
      <td>
        <span class="q">{`${minutes(window.from)} to ${minutes(window.to)}`}</span>, {window.n} readings:{" "}
        {window.why.replaceAll("_", " ")}
      </td>
      <td>
        {line ? (
          <span class="q">{plusMinus({ value: line.k, low: line.k - 2 * line.u, high: line.k + 2 * line.u })}</span>
        ) : (
          <Missing why="none: too few readings above the background" />
        )}
      </td>
    </tr>
  );
}

function minutes(seconds: number): string {
  return (seconds / 60).toFixed(1);
}
