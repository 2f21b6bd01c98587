import { figures, plusMinus, unitWords } from "../figures.ts";
import { tickWords } from "./axes.tsx";
import { channelWords } from "./channel-words.ts";
import { type DecayDrawing, fitsOf } from "./decay-drawing.ts";
import { fittedLevel } from "./fitted-level.ts";
import { evenly } from "./thinned.ts";

const MOST_ROWS = 30;

/** Some of the readings a decay is drawn from, and all that was fitted to them. */
export function DecayTable({ tS, channel, natural, total, shown }: DecayDrawing & { shown: (i: number) => boolean }) {
  const fits = fitsOf({ natural, total });
  const all = Array.from(tS.keys()).filter(shown);
  const fitAt = (s: number) => fits.find(({ decay: { window } }) => s >= window.from && s <= window.to)?.decay;
  const minutes = (s: number) => (s / 60).toFixed(1);
  return (
    <>
      {fits.length > 0 && (
        <table>
          <caption>What was fitted</caption>
          <thead>
            <tr>
              <th scope="col">decay</th>
              <th scope="col">window, minutes</th>
              <th scope="col">rate, per hour</th>
              <th scope="col">background, {channelUnit(channel)}</th>
              <th scope="col">readings</th>
            </tr>
          </thead>
          <tbody>
            {fits.map(({ phase, decay: { window, k, background } }) => {
              const level = figures(background.value, 2 * background.u);
              return (
                <tr>
                  <th scope="row">{phase}</th>
                  <td>
                    {minutes(window.from)} to {minutes(window.to)}
                  </td>
                  <td>
                    <span class="q">{plusMinus(k)}</span>
                  </td>
                  <td>
                    <span class="q">{`${level.value} ± ${level.expanded}`}</span>
                  </td>
                  <td>{window.n}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <table>
        <caption>
          Readings of <bdi>{channelWords(channel)}</bdi>
          {all.length > MOST_ROWS ? `, ${MOST_ROWS} of ${all.length}, evenly spread` : ""}
        </caption>
        <thead>
          <tr>
            <th scope="col">minutes</th>
            <th scope="col">reading</th>
            <th scope="col">fit</th>
          </tr>
        </thead>
        <tbody>
          {evenly(all, MOST_ROWS).map((i) => {
            const fit = fitAt(tS[i]!);
            return (
              <tr>
                <td>{minutes(tS[i]!)}</td>
                <td>{tickWords(channel.values[i]!)}</td>
                <td>{fit ? tickWords(fittedLevel(fit, tS[i]!)) : "outside"}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
}

function channelUnit({ unit }: DecayDrawing["channel"]) {
  return unit === "1" ? "unit not stated" : unitWords(unit);
}
