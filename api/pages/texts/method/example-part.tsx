import { interval95 } from "../../../../analysis/estimate.ts";
import { inUnit, Quantity } from "../../quantity.tsx";
import type { Reader } from "../../reader.ts";
import { Part } from "../part.tsx";
import { exampleAsAnalysed } from "./example-as-analysed.ts";
import { type LineOnPaper, pinnedExample, READINGS } from "./pinned-example.ts";

/** One test followed by hand, worked out when the page is made by the functions that work out all others. */
export function ExamplePart({ reader }: { readonly reader: Reader }) {
  const { volumeM3, on, off, rate, factor, expandedM3PerH } = pinnedExample();
  const analysed = exampleAsAnalysed();
  const [uVolume, uTotal, uNatural] = rate.budget.map(({ u }) => u) as [number, number, number];
  const cadr = rate.cadrM3PerH;
  const shown = (estimate: typeof cadr) =>
    inUnit({ value: estimate.value, ...interval95(estimate), unit: "m3/h" }, reader.flow);
  return (
    <Part id="example" title="An example to follow on paper">
      <p>
        Invented counts in a room of 30 m³ with <i>u</i>(<i>V</i>) = 0.3 m³; a reading every two minutes; background
        taken as 0. To keep it short enough for paper, the rates come from the ordinary straight line through ln{" "}
        <i>C</i>. Everything after that is what happens to every test.
      </p>
      <ReadingsTable on={on} off={off} />
      <ol class="steps">
        <li>
          Mean time <i>t̄</i> = {on.tMean} min, and ∑(<i>t</i> − <i>t̄</i>)² = {on.sumTt} min².
        </li>
        <Slope of={on} name="on" words="Cleaner on" />
        <Slope of={off} name="off" words="Cleaner off" />
        <li>
          CADR = 30 × ({on.fit.kPerH.toFixed(6)} − {off.fit.kPerH.toFixed(6)}) ={" "}
          <b id="example-cadr">{cadr.value.toFixed(3)}</b> m³/h.
        </li>
        <li>
          The volume’s part: {rate.kDifferencePerH.value.toFixed(6)} × {volumeM3.u} ={" "}
          <span id="example-u-volume">{uVolume.toFixed(6)}</span> m³/h. The decays’: 30 × {on.fit.uPerH.toFixed(9)} ={" "}
          <span id="example-u-on">{uTotal.toFixed(6)}</span> and 30 × {off.fit.uPerH.toFixed(9)} ={" "}
          <span id="example-u-off">{uNatural.toFixed(6)}</span> m³/h.
        </li>
        <li>
          <i>u</i> = √({uVolume.toFixed(6)}² + {uTotal.toFixed(6)}² + {uNatural.toFixed(6)}²) ={" "}
          <span id="example-u">{cadr.u.toFixed(6)}</span> m³/h. Shares of <i>u</i>²:{" "}
          {rate.budget.map(({ share }) => `${(100 * share).toFixed(1)}\u00a0%`).join(", ")}.
        </li>
        <li>
          <i>ν</i>
          <sub>eff</sub> = {cadr.u.toFixed(6)}⁴/({uTotal.toFixed(6)}⁴/9 + {uNatural.toFixed(6)}⁴/9) ={" "}
          <span id="example-dof">{cadr.dof.toFixed(3)}</span>, cut to {Math.floor(cadr.dof)}; Student’s <i>t</i> there
          is <i>k</i>
          <sub>95</sub> = <span id="example-factor">{factor.toFixed(6)}</span>.
        </li>
        <li>
          <i>U</i> = {factor.toFixed(6)} × {cadr.u.toFixed(6)} ={" "}
          <b id="example-expanded">{expandedM3PerH.toFixed(6)}</b> m³/h. To be quoted as <Quantity of={shown(cadr)} />.
        </li>
      </ol>
      <p>
        The same readings through the whole method give <Quantity of={shown(analysed.cadrM3PerH)} />: wider, because
        eleven readings cannot tell a background of 0 from one of a few hundred counts, nor how long their errors last.
        A log of clean air and a reading every ten seconds would narrow it again.
      </p>
    </Part>
  );
}

function Slope({ of, name, words }: { readonly of: LineOnPaper; readonly name: string; readonly words: string }) {
  const perMinute = of.sumTy / of.sumTt;
  return (
    <li>
      {words}: ∑(<i>t</i> − <i>t̄</i>) ln <i>C</i> = {signed(of.sumTy, 5)} min, slope {signed(perMinute, 7)} per minute,
      times −60: <i>k</i>
      <sub>{name}</sub> = <span id={`example-k-${name}`}>{of.fit.kPerH.toFixed(9)}</span> per hour. The squares of what
      the line leaves add up to {of.rss.toFixed(8)}; <i>s</i>² is that over 11 − 2, and <i>u</i> = 60 √(<i>s</i>²/
      {of.sumTt}) = <span id={`example-uk-${name}`}>{of.fit.uPerH.toFixed(9)}</span> per hour, with <i>ν</i> ={" "}
      {of.fit.dof}.
    </li>
  );
}

function ReadingsTable({ on, off }: { readonly on: LineOnPaper; readonly off: LineOnPaper }) {
  return (
    <section class="scroll" aria-label="Readings of the example" tabindex={0}>
      <table class="paper">
        <caption>Readings, and what is needed of them</caption>
        <thead>
          <tr>
            {["t, min", "t − t̄", "On", "ln On", "Off", "ln Off"].map((head) => (
              <th scope="col" class="number">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {READINGS.tMinutes.map((t, i) => (
            <tr>
              <th scope="row" class="number">
                {t}
              </th>
              <td class="number">{signed(t - on.tMean, 0)}</td>
              <td class="number">{READINGS.on[i]}</td>
              <td class="number">{on.lnC[i]!.toFixed(5)}</td>
              <td class="number">{READINGS.off[i]}</td>
              <td class="number">{off.lnC[i]!.toFixed(5)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function signed(value: number, decimals: number): string {
  return value.toFixed(decimals).replace("-", "−");
}
