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
          cleaner’s stream, and logs every {interval} s with the right time.
        </li>
        <li>
          <b>Clean air.</b> Run the cleaner until the readings fall no further, switch it off and log ten minutes of
          that. From it the analysis works out what each decay falls towards.
        </li>
        <li>
          <b>Aerosol, first time.</b> Feed until the counter shows about {start} times the clean air. Stop the source,
          carry it out as soon as that is safe, note the time.
        </li>
        <li>
          <b>Mix.</b> Leave the room, shut the door and let the fan run two or three minutes: streaks even out.
        </li>
        <li>
          <b>Natural decay.</b> Cleaner off, nobody goes in or out, for {natural_minutes} min. It tells what the room
          loses by itself, which is taken off.
        </li>
        <li>
          <b>Aerosol, second time.</b> Run the cleaner until the air is clean, switch it off, feed to the same level,
          mix as before, note the time.
        </li>
        <li>
          <b>Cleaner on.</b> Switch it on at the setting under test, best from outside; note the time to the second. Log{" "}
          {minutes} min without opening the door, and stay at it: a filter-taped fan is never left unattended, so watch
          it through a window or by a camera. Leave the counter logging until then: a log cut short cannot be mended.
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
