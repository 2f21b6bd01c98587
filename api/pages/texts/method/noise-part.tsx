import { k1Db } from "../../../../analysis/background-noise-correction.ts";
import { Formula, Name, Power, Sign } from "../formula.tsx";
import { Below, Part } from "../part.tsx";

const DIFFERENCES_DB = [6, 8, 10, 12, 15];

/** From a meter's reading to the level at 1 m. */
export function NoisePart() {
  return (
    <Part id="noise" title="Noise at 1 m">
      <p>
        Shown is the A-weighted sound pressure level at 1 m, <i>L</i>
        <sub>pA</sub> in dB(A), as if in the open (free field). A reading with the cleaner on holds the room’s own noise
        too, which is taken off by the correction of ISO 3744 (from memory), with <i>ΔL</i> the level with the cleaner
        on less that with it off:
      </p>
      <Formula>
        <Name of="K" at="1" />
        <Sign>=</Sign>
        <Sign>−</Sign>
        <mn>10</mn>
        <mi>lg</mi>
        <Sign>(</Sign>
        <mn>1</mn>
        <Sign>−</Sign>
        <Power
          of={<mn>10</mn>}
          to={
            <>
              <Sign>−</Sign>
              <mn>0.1</mn>
              <Name of="ΔL" />
            </>
          }
        />
        <Sign>)</Sign>
      </Formula>
      <p>
        {DIFFERENCES_DB.map((difference) => `${k1Db(difference).toFixed(2)} dB at ${difference} dB`).join(", ")}. Over
        15 dB none is taken off. Under 6 dB it is capped at 1.3 dB and the upper end of the interval is shown as a
        bound, “under …”. Under 3 dB nothing can be told, and no noise is shown (this last limit is the method’s own).
        Without a reading of the background nothing is taken off, and 0.75 dB is added to the standard uncertainty.
      </p>
      <Below id="distance">Distance and power</Below>
      <p>
        A reading at <i>r</i> is brought to 1 m by + 20 lg(<i>r</i>/1 m): 6.02 dB for a doubling. A sound power level{" "}
        <i>L</i>
        <sub>WA</sub> becomes <i>L</i>
        <sub>pA</sub> at 1 m by − 7.98 dB, a half-sphere. A room is no open field, so a standard uncertainty of 2 dB is
        added, 3 dB where the reading was not taken between 0.5 and 1.5 m.
      </p>
      <Below id="meters">Meters</Below>
      <p>
        Standard uncertainty of a whole reading: class 1 about 1 dB, class 2 about 2 dB, a phone or an unknown meter 4
        dB and 6 dB under 45 dB(A), a maker’s figure 2 dB unless stated (common practice, no source). Several readings
        are averaged as energies, never as decibels; what their meters have in common does not average out. What makers
        state is never mixed with what was measured.
      </p>
    </Part>
  );
}
