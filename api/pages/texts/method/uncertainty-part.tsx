import { Formula, Name, Over, Power, Sign } from "../formula.tsx";
import { Below, Part } from "../part.tsx";

/** Where an interval comes from. */
export function UncertaintyPart() {
  return (
    <Part id="uncertainty" title="Where the interval comes from">
      <p>
        After the Guide to the Expression of Uncertainty in Measurement (GUM, JCGM 100:2008). Each input has a standard
        uncertainty <i>u</i>, which is a standard deviation, and degrees of freedom <i>ν</i>, which say how well{" "}
        <i>u</i> itself is known. Each moves the result by its own amount:
      </p>
      <Formula>
        <Name of="u" at="V" />
        <Sign>=</Sign>
        <Sign>|</Sign>
        <Name of="k" at="total" />
        <Sign>−</Sign>
        <Name of="k" at="natural" />
        <Sign>|</Sign>
        <Name of="u" />
        <Sign>(</Sign>
        <Name of="V" />
        <Sign>)</Sign>
      </Formula>
      <Formula>
        <Name of="u" at="total" />
        <Sign>=</Sign>
        <Name of="V" />
        <Name of="u" />
        <Sign>(</Sign>
        <Name of="k" at="total" />
        <Sign>)</Sign>
      </Formula>
      <Formula>
        <Name of="u" at="natural" />
        <Sign>=</Sign>
        <Name of="V" />
        <Name of="u" />
        <Sign>(</Sign>
        <Name of="k" at="natural" />
        <Sign>)</Sign>
      </Formula>
      <p>
        and further parts for a spread between counters and for <a href="#findings">findings</a>. Their squares add up
        to <i>u</i>²(CADR). Both decays lean on one background, so part of their error is common and drops out of the
        difference: the budget shows that as a share below 0.
      </p>
      <Below id="degrees-of-freedom">Degrees of freedom and the factor</Below>
      <p>
        How well the sum is known follows from how well its parts are (Welch–Satterthwaite). A volume’s <i>u</i> is
        taken as known and adds nothing below the line.
      </p>
      <Formula>
        <Name of="ν" at="eff" />
        <Sign>=</Sign>
        <Over
          top={<Power of={<Name of="u" />} to={<mn>4</mn>} />}
          bottom={
            <>
              <Sign>∑</Sign>
              <msubsup>
                <mi>u</mi>
                <mi>i</mi>
                <mn>4</mn>
              </msubsup>
              <Sign>/</Sign>
              <Name of="ν" at="i" />
            </>
          }
        />
      </Formula>
      <p>
        The 95&nbsp;% interval is the value ± <i>U</i> with <i>U</i> = <i>k</i>
        <sub>95</sub> · <i>u</i>, where <i>k</i>
        <sub>95</sub> is Student’s <i>t</i> at <i>ν</i>
        <sub>eff</sub> cut to a whole number: 12.71 at 1, 2.57 at 5, 2.23 at 10, 1.96 at infinity. Few readings cost
        twice: a larger <i>u</i> and a larger factor.
      </p>
      <Below id="budget">The budget</Below>
      <p>
        Each result shows what share of <i>u</i>² comes from where. It tells what to do better: if the volume leads,
        tape the room; if the fit with the cleaner on leads, log faster or start from more aerosol; if the natural fit
        leads, log it longer.
      </p>
      <Below id="draws">Checked by draws</Below>
      <p>
        Where the standard uncertainty of the volume or of the difference of the rates is over 20&nbsp;% of it, the
        interval is worked out once more from 10 000 random draws of every input (JCGM 101:2008), always the same for
        the same test. If they reach further by a twentieth of the half-width, the interval is widened to them.
      </p>
      <Below id="several">Several decays, several counters</Below>
      <p>
        Repeated decays, and counters side by side, are joined by weights 1/(<i>u</i>² + <i>τ</i>²). <i>τ</i> is how far
        they differ beyond their own uncertainties (Paule and Mandel 1982), and it widens the result.
      </p>
      <Below id="single-pass">CADR over stated flow</Below>
      <p>
        CADR = <i>ε</i> <i>η</i> <i>Q</i>, with <i>η</i> the single-pass efficiency of the filters, <i>Q</i> the flow
        through them and <i>ε</i> at most 1, for some air goes round twice (common practice, no source). So CADR over
        the stated flow is <i>ε</i> <i>η</i> only as far as the stated flow is the true one, and is no test of a filter:
        a fan stated in free air moves less through filters. Over 1 is impossible, and a{" "}
        <a href="#finding-cadr-above-flow">finding</a>. The flow is taken as exact, so that the interval is that of the
        CADR alone.
      </p>
    </Part>
  );
}
