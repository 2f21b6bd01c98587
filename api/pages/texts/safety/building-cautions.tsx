import { Part } from "../part.tsx";

/** Building and tending the unit. */
export function BuildingCautions() {
  return (
    <>
      <Part id="fan" title="While you build or run a fan with filters">
        <ul>
          <li>
            Never leave a fan with filters taped to it unattended, not in a test either, and never let it run while
            people sleep. Its motor is cooled by the air that the filters hold back.
          </li>
          <li>
            Use only a fan with a fused plug, undamaged, with its guard on. An old one without a fuse has nothing that
            stops it when the motor sticks.
          </li>
          <li>
            Change nothing in its motor or speed control: no bypassed switch, no dimmer, no lower capacitor. Other
            settings than its maker’s are for licensed people.
          </li>
          <li>
            Let nothing touch the blades or block the way in: a loaded filter does that slowly. After the first half
            hour unplug it and feel whether the motor is hot.
          </li>
          <li>Stand it where it cannot fall or be pulled over, away from curtains, heaters and water.</li>
          <li>
            Cutting and sanding the frame makes dust of its own: see <a href="#wood-dust">wood dust</a>.
          </li>
        </ul>
      </Part>
      <Part id="filters" title="While you change filters">
        <ul>
          <li>Unplug the unit first. A switch is not enough.</li>
          <li>Wear a fitted respirator and gloves: a loaded filter gives back what it caught when it is knocked.</li>
          <li>Lower it into a bag, close the bag, and do not beat, blow or vacuum it clean.</li>
          <li>Do it outdoors or where nobody else is, and wash your hands.</li>
        </ul>
      </Part>
      <Part id="ozone" title="Ionisers, electrostatic and ultraviolet units">
        <ul>
          <li>
            Ionisers, electrostatic precipitators and ultraviolet lamps can make ozone, which harms the lungs.
            California allows indoor air cleaners no more than 0.050 ppm.
          </li>
          <li>Your nose is no guide: you may smell nothing, or soon stop smelling it.</li>
          <li>
            A clean air delivery rate counts particles. It says nothing of ozone or other gases: a unit can stand high
            in the list and still make them.
          </li>
          <li>
            Ultraviolet light of the germ-killing kind burns eyes and skin. Never look into it, and never run it open.
          </li>
          <li>Electrostatic plates hold high voltage, for a while even when unplugged.</li>
        </ul>
      </Part>
    </>
  );
}
