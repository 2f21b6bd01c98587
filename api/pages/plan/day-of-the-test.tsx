import type { TestPlanOut } from "../../wire/test-plan.ts";

/** The day of a planned test in order, to be printed and ticked off. Lengths are the plan's; the rest is common practice. */
export function DayOfTheTest({ plan, interval }: { readonly plan: TestPlanOut; readonly interval: string }) {
  const { natural_minutes, minutes, start_over_background: start, trials } = plan;
  const again = trials !== null && trials > 1;
  return (
    <section class="day">
      <h2>The day of the test</h2>
      <p class="quiet">
        Lengths and levels are the plan’s; the rest is common practice, no source.{" "}
        <span class="unprinted">Print this page: the form is left out.</span>
      </p>
      <ol>
        <li>
          <b>Set up.</b> Tape the room and write its size down. Doors, windows and ventilation stay from now on as they
          are. A fan stirs the air, away from the counter. The counter stands at the height of your head, not in the
          cleaner’s stream, and logs every {interval} s with the right time. Have a way to look in, a window or a
          camera, and the cleaner’s plug within reach from outside.
        </li>
        <li>
          <b>Clean air.</b> Run the cleaner until the readings fall no further, switch it off and log ten minutes of
          that. From it the analysis works out what each decay falls towards.
        </li>
        <li>
          <b>Aerosol, first time.</b> Stay with anything lit or hot from the first spark until it is cold. Feed until
          the counter shows about {start} times the clean air, stop the source, carry it out as soon as that is safe,
          note the time.
        </li>
        <li>
          <b>Mix.</b> Only once nothing is lit any more: leave the room, shut the door and let the fan run two or three
          minutes: streaks even out.
        </li>
        <li>
          <b>Natural decay.</b> Cleaner off, nobody goes in or out, for {natural_minutes} min. It tells what the room
          loses by itself, which is taken off.
        </li>
        <li>
          <b>Aerosol, second time.</b> Run the cleaner until the air is clean, switch it off, feed to the same level
          with the same care, mix as before, note the time.
        </li>
        <li>
          <b>Cleaner on.</b> Switch it on at the setting under test by its plug, from outside; note the time to the
          second. Log {minutes} min without opening the door, and watch it the whole time through the window or by the
          camera, the plug within reach: a fan with filters taped to it is never left unattended. Leave the counter
          logging until then: a log cut short cannot be mended.
        </li>
        <li>
          <b>Noise and power.</b> Noise at 1 m, the cleaner on and then off, in a quiet hour. Power at the plug at the
          same setting.
        </li>
        <li>
          <b>Write down.</b> Setting; how old the filters are; what the aerosol was; ventilation; temperature and
          humidity; model of the counter; who paid for or lent the cleaner.
        </li>
        <li>
          <b>Air the room</b>, then save the log as the counter wrote it and <a href="/submit">add the test</a>.
          {again && ` For the ± asked for, make ${trials} such tests.`}
        </li>
      </ol>
    </section>
  );
}
