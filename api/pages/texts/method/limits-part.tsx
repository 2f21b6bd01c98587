import { Part } from "../part.tsx";

/** What the method cannot see, or sees too late. */
export function LimitsPart() {
  return (
    <Part id="limits" title="What it cannot see">
      <ul>
        <li>
          <b>Dead time that nobody stated.</b> A counter that is near its limit misses particles, most at the start, and
          its rate comes out low: a loss of 5&nbsp;% at the start makes 5 per hour read as 4.91 over half an hour
          (computed). It is corrected where flow and dead time are stated, and warned of where the counter’s maximum is
          and a decay begins over a fifth of it. With neither the log alone does not show it.
        </li>
        <li>
          <b>A cleaner that slows down a little.</b> A break or a clear bend is seen and told. A drift too small to tell
          from noise is not, and moves the result by less than the interval holds in most cases, not in all.
        </li>
        <li>
          <b>Doors, people, heating.</b> A door that opens in the decay with the cleaner on adds its loss to the
          cleaner’s; one that stood open in the natural decay takes it off. If both decays look smooth, nothing shows
          it.
        </li>
        <li>
          <b>Air that is not mixed.</b> A counter in the cleaner’s stream, or a corner that the air passes by, measures
          that spot. A mixing fan in all decays is the cure. Strong units in small rooms read low: one by 28 to
          55&nbsp;% in a comparison of 28.4 with 202 m³ (Indoor Environments 3(2), 100165).
        </li>
        <li>
          <b>What the counter calls a size.</b> Bins are the counter’s own, and light scattering depends on the
          particle. A rate does not hang on calibration, but which particles it is a rate of does.
        </li>
        <li>
          <b>Particles that stick, grow or dry.</b> Sticking is reckoned from what is counted, a lower bound. Damp air
          (above about 75&nbsp;%, from memory) makes salt grow, and drying looks like loss.
        </li>
        <li>
          <b>Slow waves.</b> Errors that last as long as the decay itself are too few to be judged; the finding says so,
          the interval may still be too narrow.
        </li>
        <li>
          <b>What was never sent.</b> People may publish their better tests. Each says how many were made, if its author
          told; a tester is a key here, not a person, and one person may hold several.
        </li>
        <li>
          <b>Gases, germs, ozone, age.</b> None of it is measured here. A rate is that of the day and the filter it was
          made with.
        </li>
      </ul>
    </Part>
  );
}
