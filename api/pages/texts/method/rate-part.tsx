import { Formula, Name, Sign } from "../formula.tsx";
import { Below, Part } from "../part.tsx";
import { NaturalLossTable } from "./natural-loss-table.tsx";

/** From two rates to clean air. */
export function RatePart() {
  return (
    <Part id="cadr" title="From two rates to clean air">
      <p>
        Particles also settle and leak out by themselves. Whatever the cleaner adds to that is its own, and times the
        room’s volume it is a flow of clean air, the clean air delivery rate (CADR). In mixed air it is the same in a
        small room and in a large one:
      </p>
      <Formula>
        <mtext>CADR</mtext>
        <Sign>=</Sign>
        <Name of="V" />
        <Sign>(</Sign>
        <Name of="k" at="total" />
        <Sign>−</Sign>
        <Name of="k" at="natural" />
        <Sign>)</Sign>
      </Formula>
      <p>
        A CADR of 200 m³/h clears particles as 200 m³ of wholly clean air an hour would. It is less than the fan’s flow,
        for filters let some through and some air goes round twice. A result at or below 0 is reported as it came out:
        to hide it would push every pooled figure up.
      </p>
      <Below id="volume">The volume</Below>
      <p>
        Length × width × height, less what cupboards and machines fill. An uncertainty you state is used. Without one,
        three taped sides are taken as good to 2&nbsp;%, a bare volume to 5&nbsp;% and what stands in the room to a
        fifth of itself (standard uncertainties; common practice, no source). Where a result is known to a few per cent,
        it is mostly the volume that decides.
      </p>
      <Below id="natural-loss">Natural loss: measured, of another day, assumed</Below>
      <ul>
        <li>
          <b>Measured, paired</b>: a decay with the cleaner off, by the same counter in the same room with mixing fan
          and ventilation alike, the starts at most twelve hours apart (runs that state no time count as one occasion).
          Only this subtracts what the room did that day.
        </li>
        <li>
          <b>Of another day</b>, or under other conditions: rooms leak differently from day to day, so 15&nbsp;% of it
          is added to the uncertainty (the method’s figure).
        </li>
        <li>
          <b>Assumed</b>: a typical loss with a standard uncertainty of 60&nbsp;%, as in the table. Under 10 m³ three
          times as much, with one of 100&nbsp;%. Lists leave out what rests on a single unpaired test, unless asked.
        </li>
      </ul>
      <NaturalLossTable />
      <p>These intervals reach below 0, as no room’s loss does: that is how little is known without a measurement.</p>
      <p>
        Published rooms lost from 0.3 per hour at 0.3–0.5 µm to 5.2 per hour above 10 µm with fans off (Howard-Reed and
        others 2003). Furnishing multiplied the loss by up to 2.6 and moving air by 1.3–2.4 (Thatcher and others 2002):
        so keep the mixing fan alike in both decays.
      </p>
    </Part>
  );
}
