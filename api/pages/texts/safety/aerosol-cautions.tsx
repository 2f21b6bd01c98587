import { Part } from "../part.tsx";

/** Making what the cleaner is to take out. */
export function AerosolCautions() {
  return (
    <>
      <Part id="aerosol" title="While you make a test aerosol">
        <ul>
          <li>
            A hot plate, incense or anything that smoulders is a fire. Stay with it from the first spark until it is
            cold, on something that cannot burn, with water or an extinguisher in reach.
          </li>
          <li>
            Keep it well away from the cleaner: a spark drawn into a paper filter burns on inside, where nobody sees it.
          </li>
          <li>
            Smoke harms whoever breathes it. Let nobody with asthma, heart or lung trouble into the room, no children
            and no pets. Start the log, leave, and look through a window or by a camera; go in with a fitted respirator.
          </li>
          <li>
            A sealed room gathers carbon monoxide, which cannot be smelled. Burn as little as the plan asks for, have a
            carbon monoxide alarm where you wait, and air the room before anyone stays in it.
          </li>
          <li>
            Leave smoke alarms on. If the test would set them off, test elsewhere or use salt mist; ask whoever answers
            for the building, where an alarm calls the fire service.
          </li>
          <li>Keep the way out clear and unlocked. Tape a door so that it opens with one push.</li>
          <li>
            Use less. A start at twenty to a hundred times the clean air is enough; <a href="/plan">Plan a test</a> says
            how much yours needs.
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
