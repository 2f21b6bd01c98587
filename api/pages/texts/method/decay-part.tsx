import { Formula, Name, Power, Sign } from "../formula.tsx";
import { Below, Part } from "../part.tsx";

/** From the readings to the rate of one decay. */
export function DecayPart() {
  return (
    <Part id="decay" title="From readings to a rate">
      <p>
        In mixed air a cleaner takes out the same share of the particles in every minute. So their concentration falls
        as an exponential towards a background that something keeps up: air that leaks in, dust that is stirred up.
      </p>
      <Formula>
        <Name of="C" />
        <Sign>(</Sign>
        <Name of="t" />
        <Sign>)</Sign>
        <Sign>=</Sign>
        <Name of="B" />
        <Sign>+</Sign>
        <Name of="A" />
        <Power
          of={<Name of="e" />}
          to={
            <>
              <Sign>−</Sign>
              <Name of="k" />
              <Name of="t" />
            </>
          }
        />
      </Formula>
      <p>
        <i>k</i> is the rate in 1 per hour: that of the natural decay with the cleaner off, that of the total decay with
        it on. The half-life is ln 2/<i>k</i>. <i>B</i> is the background, <i>A</i> the concentration above it at the
        start. The unit of <i>C</i> does not matter: counts, particles per cm³ and µg/m³ all give the same <i>k</i>. An
        air quality index does not: it is bent on purpose, and is refused.
      </p>
      <Below id="cleaning">What is left out of a log first</Below>
      <p>
        Rows whose time is missing, repeats or runs back; rows sent late all at once; blanks; zeros of a counter that
        restarts; values a counter merely holds; rows before it was awake; single spikes (more than six scaled median
        deviations from four neighbours). Readings at the counter’s limit date the peak but enter no fit. Everything
        left out is counted on the test’s page, and the log as sent is kept.
      </p>
      <Below id="windows">Which part of a log is a decay</Below>
      <p>
        Marks say when the aerosol ended and the cleaner came on. Where mark and readings disagree, what lies between is
        used for neither decay. Without marks the log tells: a decay begins after the peak, two readings or 15&nbsp;% of
        the feeding time later, whichever is more, and after the counter’s own smoothing. The moment the cleaner came on
        is where ln(
        <i>C</i> − <i>B</i>) bends; it is believed only if no smooth curve fits better, the rate grows by 30&nbsp;% and
        by three of its uncertainties (six in a log of natural decay), and 0.7 of a halving follows. A decay with the
        cleaner on ends at 1&nbsp;% of its start (a mass also at eight of the counter’s steps), where it climbs again,
        or where its rate changes. Each decay needs nine readings (five from 5 µm up), one with the cleaner on also one
        halving, else it is <a href="#refusals">refused</a>. The window and its reason stand with each result.
      </p>
      <Below id="background">The background</Below>
      <p>
        <i>B</i> is fitted, but never left wholly free: the clean air before the test says what to expect. If that air
        stood at <i>C</i>
        <sub>bg</sub> with only natural loss at work, a source fed it with <i>k</i>
        <sub>natural</sub> <i>C</i>
        <sub>bg</sub>; under the cleaner the same source holds only <i>C</i>
        <sub>bg</sub> <i>k</i>
        <sub>natural</sub>/<i>k</i>
        <sub>total</sub>. That level, give or take itself, is where the floor is looked for. Without a reading of the
        clean air the end of the decay bounds it from above. Leaving the background on shifts the rate a lot: 5&nbsp;%
        of the start makes a true 6 per hour read as 4.8 over half an hour (computed).
      </p>
      <Below id="scatter">How far a reading may be off</Below>
      <p>Three things move a reading away from the curve, and the log itself shows how much of each there is:</p>
      <ul>
        <li>counting: few particles scatter more than many, and a counter shows whole steps;</li>
        <li>
          waves that last: a cloud drifts past the counter, and the next readings are off the same way. They are taken
          as an error with a memory (Ornstein–Uhlenbeck), about a minute long unless the readings say otherwise;
        </li>
        <li>scatter of its own from reading to reading.</li>
      </ul>
      <p>
        The fit weighs each reading by what it is worth with all three in view (restricted likelihood, by a Kalman
        filter), and takes the uncertainty of <i>k</i> from there. An ordinary straight line through ln(<i>C</i>) takes
        neighbours for independent witnesses and the background for exactly known, so it claims too much. It is shown
        beside each fit, with what it claims, and no result is made from it.
      </p>
      <Below id="bands">Size bands</Below>
      <p>
        Counters sort particles into bins. Three bands are made of them: 0.1–1.0, 0.5–3.0 and 5–11 µm (the sizes that
        ANSI/AHAM AC-1 calls smoke, dust and pollen, from memory), each bin by the share of it inside the band on a
        logarithmic axis. A counter from 0.3 to 1.0 µm covers 52&nbsp;% of the first; under half, a band is refused. So
        a band is a range of sizes, and no aerosol: what was fed in, salt or smoke, stands beside each result. Particles
        below what the counter sees are not in it, and a result is no test by that standard, whose chamber and aerosols
        differ. Mass up to 2.5 µm is a band too, and every channel is analysed as it is.
      </p>
    </Part>
  );
}
