import { instant } from "../../figures.ts";
import { percentOf } from "../../percent.ts";
import { Below, Part } from "../part.tsx";

/** The spread between laboratories as it is stored. */
export interface SpreadToday {
  readonly relative: number;
  readonly dof: number;
  readonly source: "assumed" | "learnt";
  readonly entries: number;
  readonly at: string;
}

/** Many tests of one thing. */
export function PoolingPart({ spread }: { readonly spread: SpreadToday }) {
  return (
    <Part id="pooling" title="Many tests of one cleaner">
      <p>
        Tests of one configuration at one setting in one band are an entry. In each room the rates are pooled first, and
        multiplied by the volume once; a natural decay that served several tests counts as one error. Where repeats in a
        room scatter more than they should, they are widened (Birge 1932). All rooms of one tester are one laboratory:
        the same counter and the same hands. Laboratories are then joined by weights 1/(<i>u</i>² + <i>τ</i>
        ²).
      </p>
      <Below id="spread">How far laboratories differ</Below>
      <p>
        Two counters on one run differed by 12&nbsp;% in the median, where each repeats to 2&nbsp;% (open decay logs by
        robwiss, 2022). So laboratories differ by more than their own intervals say. The spread <i>s</i> is a standard
        deviation, as a share of the rate, and one for the whole registry.
      </p>
      <p id="spread-today" class="said">
        {spreadWords(spread)}
      </p>
      <p>
        Until three entries of real tests have three testers each, 13&nbsp;% is assumed with 8 degrees of freedom. From
        then on it is learnt from them by restricted maximum likelihood, with at most 30 degrees of freedom, and every
        pooled figure is made anew when it changes so much that a reader would notice. Nothing is learnt from invented
        tests, and they are never pooled with real ones.
      </p>
      <Below id="few-laboratories">Few laboratories, or many</Below>
      <ul>
        <li>
          One to four: <i>τ</i>² = (<i>d</i> <i>s</i>² + (<i>n</i> − 1) <i>τ̂</i>²)/(<i>d</i> + <i>n</i> − 1), with{" "}
          <i>n</i> laboratories, <i>d</i> degrees of freedom of <i>s</i> and <i>τ̂</i> their own scatter. What the
          registry knows fills in for what two or three cannot tell; Student’s <i>t</i> is taken at up to <i>d</i> +{" "}
          <i>n</i> − 1.
        </li>
        <li>
          Five and more: their own scatter decides, by restricted likelihood, widened after Knapp and Hartung (2003) but
          never narrowed, <i>t</i> at <i>n</i> − 1.
        </li>
      </ul>
      <p>
        Part of the doubt is a share of the true rate, so intervals reach further up than down (the asinh scale of
        Durbin and others 2002).
      </p>
      <Below id="prediction">Prediction</Below>
      <p>
        Where the next laboratory’s figure is expected, 95&nbsp;%: <i>u</i>² of the pooled mean plus <i>τ</i>², here
        always that of few laboratories: the scatter of five to ten alone would miss the next too often. From a single
        test it is <i>u</i>² + 2<i>τ</i>², once for this laboratory’s place in the spread and once for the other’s. How
        well the next one measures is not in it: its own ± comes on top. It is made on reading and is no part of a
        stored result, which depends on its own runs alone. On a test’s own page it stands evenly about the value, with{" "}
        <i>τ</i> as a share of the value seen; on the page of a cleaner it is made on the asinh scale and reaches
        further up: quote that one.
      </p>
      <Below id="bases">Four ways to count</Below>
      <p>
        All tests; those by people who bought or built the cleaner themselves; those with a paired natural decay; those
        with both. Other filters choose entries and never pool anew. Figures by aerosol are shown with an entry and
        never ranked.
      </p>
    </Part>
  );
}

function spreadWords({ relative, dof, source, entries, at }: SpreadToday): string {
  const figure = `Today: s = ${percentOf(relative)} with ${Number(dof.toPrecision(2))} degrees of freedom, so that s itself is known to about ${percentOf(relativeUOfSd(dof))} of itself`;
  if (source === "assumed") return `${figure}; assumed, for too few cleaners were tested by several people yet.`;
  return `${figure}; learnt from ${entries} entries on ${instant(at)}.`;
}

/** Standard uncertainty of a standard deviation known by ν degrees of freedom, as a share of it: 1/√(2ν). GUM G.4.2. */
function relativeUOfSd(dof: number): number {
  return 1 / Math.sqrt(2 * dof);
}
