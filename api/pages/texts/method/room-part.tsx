import { Below, Part } from "../part.tsx";
import { CdcTable } from "./cdc-table.tsx";

/** What a rate does in a room of one's own, and how a test of one's own is planned. */
export function RoomPart() {
  return (
    <>
      <Part id="room" title="Your own room">
        <p>
          <i>n</i> units add <i>a</i> = <i>n</i> · CADR/<i>V</i> air changes an hour to the loss <i>k</i>
          <sub>n</sub> that is there anyway. From that:
        </p>
        <ul>
          <li>
            half-life = ln 2/(<i>k</i>
            <sub>n</sub> + <i>a</i>);
          </li>
          <li>
            minutes until a share <i>p</i> is gone = −60 ln(1 − <i>p</i>)/(<i>k</i>
            <sub>n</sub> + <i>a</i>);
          </li>
          <li>
            level under a steady source, over that without cleaners = <i>k</i>
            <sub>n</sub>/(<i>k</i>
            <sub>n</sub> + <i>a</i>): a fifth of it needs <i>a</i> = 4 <i>k</i>
            <sub>n</sub>.
          </li>
        </ul>
        <CdcTable />
        <p>
          The CDC’s rough target is five air changes an hour or more (2023). <a href="/room">My room</a> takes the
          prediction interval, what you say of your volume and your loss, and tells the probability that <i>n</i> units
          reach a target. What the prediction is off by is the same for all units of a kind: more of them do not average
          it out.
        </p>
        <Below id="seat">Noise where you sit</Below>
        <p>
          Levels of several units add as energies: 50 and 50 make 53.0 dB(A), and <i>n</i> alike add 10 lg <i>n</i>.
          With distance 20 lg <i>r</i> is taken off, as outdoors; indoors it falls less, so far seats are louder than
          shown.
        </p>
      </Part>
      <Part id="plan" title="Planning a test">
        <p>
          From the volume, a guess of the rate, the counter’s interval and its noise, the information in the readings to
          come can be worked out beforehand (Fisher’s, memory included). <a href="/plan">Plan a test</a> searches for
          the shortest pair of decays that reaches the uncertainty you want, with the least aerosol that costs at most a
          tenth more time. Where the volume stands in the way it says so: no length of log mends that.
        </p>
      </Part>
    </>
  );
}
