import type { BandResultOut, DecayOut } from "../../wire/analysis.ts";
import { figures, plusMinus } from "../figures.ts";
import { Missing, Quantity } from "../quantity.tsx";
import { NATURAL_WORDS } from "./record-words.ts";

/** Total and natural decay of one band: rates, half-lives, windows and why, the line through the logarithms beside. */
export function Rates({ result: { total, natural }, level }: { result: BandResultOut; level: string }) {
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
        <Phase name="Total, cleaner on" k={total.k} halfLife={total.half_life} decays={total.counters} level={level} />
        <Phase
          name={`Natural, ${NATURAL_WORDS[natural.source]}`}
          k={natural.k}
          halfLife={natural.half_life}
          decays={natural.counters}
          level={level}
        />
      </tbody>
    </table>
  );
}

type Rate = BandResultOut["total"]["k"];

function Phase(it: { name: string; k: Rate; halfLife: Rate | null; decays: readonly DecayOut[]; level: string }) {
  const { name, k, halfLife, decays, level } = it;
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
              Log {decay.run + 1}
              {!alone && (
                <>
                  , counter <bdi>{decay.counter}</bdi>
                </>
              )}
              : {seconds(decay.window.from)} to {seconds(decay.window.to)} s after its first row, {decay.window.n}{" "}
              readings kept ({decay.window.why}); falls towards B = <Level of={decay} level={level} />
              {decay.log_linear?.background !== undefined &&
                `; the plain line took B = ${plain(decay.log_linear.background)} ${level}`}
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

/** The background that was fitted. */
function Level({ of: { background }, level }: { readonly of: DecayOut; readonly level: string }) {
  const { value, expanded } = figures(background.value, 2 * background.u);
  return <span class="q">{`${value} ± ${expanded} ${level}`}</span>;
}

function seconds(s: number): string {
  return String(Math.round(10 * s) / 10);
}

function plain(value: number): string {
  return String(Number(value.toPrecision(4))).replace("-", "−");
}
