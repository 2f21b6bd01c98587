import { Part } from "../part.tsx";

/** Making what the cleaner is to take out. */
export function AerosolCautions() {
  return (
    <>
      <Part id="aerosol" title="While you make a test aerosol">
        <ul>
          <li>
            A hot plate, incense or anything that smoulders can start a fire. Stay with it from the first spark until it
            is cold, on something that cannot burn, with a fire extinguisher or blanket in reach. No water onto hot oil
            or anything electric.
          </li>
          <li>
            Keep it well away from the cleaner: a spark drawn into a paper filter burns on inside, where nobody sees it.
          </li>
          <li>
            Smoke harms whoever breathes it. Let nobody with asthma, heart or lung trouble into the room, no children
            and no pets. Who tends the source wears a fitted respirator and has a second person outside. Once it is out,
            cold and carried away, leave, and look through a window or by a camera.
          </li>
          <li>
            A sealed room gathers carbon monoxide, which cannot be smelled and goes through any filter or dust
            respirator. Burn as little as the plan asks for, have a carbon monoxide alarm beside you in the room, get
            out into fresh air if it sounds or your head aches, and air the room before anyone stays in it.
          </li>
          <li>
            Leave smoke alarms on. If the test would set them off, test elsewhere or use salt mist; ask whoever answers
            for the building, where an alarm calls the fire service.
          </li>
          <li>Keep the way out clear and unlocked. Tape a door so that it opens with one push.</li>
          <li>
            Never blow wood dust, flour or another dust that burns into the air for a test: a cloud of it can explode,
            and wood dust causes cancer.
          </li>
          <li>
            Use less. A start at twenty to a hundred times the clean air is mostly enough;{" "}
            <a href="/plan">Plan a test</a> says how much yours needs.
          </li>
        </ul>
      </Part>
      <Part id="salt" title="Salt mist and mains">
        <ul>
          <li>
            Mist of salt water is milder than smoke: no fire, no carbon monoxide. It still bothers sensitive lungs, and
            it settles on electronics and corrodes them.
          </li>
          <li>
            Water and mains do not go together. Put the nebuliser where nothing can drip or be sprayed onto plugs,
            leads, extension sockets or the fan, and plug it in through a residual-current device (RCD, GFCI).
          </li>
          <li>Humid air makes droplets, not dry salt: give the mist time to dry before the decay counts.</li>
        </ul>
      </Part>
    </>
  );
}
