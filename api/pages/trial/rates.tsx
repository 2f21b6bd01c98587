import type { BandResultOut, DecayOut } from "../../wire/analysis.ts";
import { plusMinus } from "../figures.ts";
import { Missing, Quantity } from "../quantity.tsx";
import { NATURAL_WORDS, plainMessage } from "./record-words.ts";

/** Total and natural decay of one band: rates, half-lives, windows and why, the line through the logarithms beside. */
export function Rates({ result: { total, natural } }: { result: BandResultOut }) {
  return (
    <table class="rates">
      <caption>Rates of decay</caption>
      <thead>
        <tr>
          <th scope="col">Decay</th>
          <th scope="col">Rate, per hour</th>
          <th scope="col">Half-life, min</th>
          <th scope="col">Plain line, per hour</th>
        </tr>
      </thead>
      <tbody>
        <Phase name="Total, cleaner on" k={total.k} halfLife={total.half_life} decays={total.counters} />
        <Phase
          name={`Natural, ${NATURAL_WORDS[natural.source]}`}
          k={natural.k}
          halfLife={natural.half_life}
          decays={natural.counters}
        />
      </tbody>
    </table>
  );
}

type Rate = BandResultOut["total"]["k"];

function Phase(it: { name: string; k: Rate; halfLife: Rate | null; decays: readonly DecayOut[] }) {
  const { name, k, halfLife, decays } = it;
  const alone = decays.length === 1;
  return (
    <>
      <tr>
        <th scope="row">{name}</th>
        <td>
          <Quantity of={k} bare />
        </td>
        <td>
          <Quantity of={halfLife} bare ranged missing="the rate may be 0" />
        </td>
        <td>{alone ? <Line of={decays[0]!} /> : <Missing why={decays.length === 0 ? "no decay" : "each below"} />}</td>
      </tr>
      {decays.map((decay) => (
        <tr class="fit-row">
          <td colspan={4}>
            <small>
              Run {decay.run}, <bdi>{decay.counter}</bdi>: minutes {minutes(decay.window.from)} to{" "}
              {minutes(decay.window.to)}, {decay.window.n} readings ({plainMessage(decay.window.why, null)})
              {!alone && (
                <>
                  ; <Quantity of={decay.k} />, plain line <Line of={decay} />
                </>
              )}
            </small>
          </td>
        </tr>
      ))}
    </>
  );
}

/** The ordinary line through ln(C − background), with twice the standard error it claims. */
function Line({ of: { log_linear: line } }: { readonly of: DecayOut }) {
  if (line === null) return <Missing why="none: too few readings above the background" />;
  return <span class="q">{plusMinus({ value: line.k, low: line.k - 2 * line.u, high: line.k + 2 * line.u })}</span>;
}

function minutes(seconds: number): string {
  return (seconds / 60).toFixed(1);
}
