import { Listing } from "../listing.tsx";
import { Below, Part } from "../part.tsx";
import { COUNTER_LINES, PYTHON, SERIAL, SHORTEST, STORING, TRIAL_JSON } from "./examples.ts";

/** From the shortest call to a stored trial. */
export function CallsPart() {
  return (
    <>
      <Part id="shortest" title="The shortest call">
        <Listing label="The shortest call" id="curl-analyse">
          {SHORTEST}
        </Listing>
        <p>
          Nothing is stored and no key is needed. The log is one file of everything: clean air, aerosol, decay, cleaner
          on. Its columns are guessed from their names; comma, semicolon or tab, decimal comma, dates or seconds, all
          are read. The answer holds, for each size band, <code>results[].cadr</code> with <code>low</code> and{" "}
          <code>high</code>, the 95&nbsp;% interval; where it comes from (<code>budget</code>); what was left out (
          <code>dropped</code>); and <a href="/method#findings">findings</a>. Room by sides:{" "}
          <code>-F length=5m -F width=3m -F height=2m</code>. A mark of your own, in the file’s time:{" "}
          <code>-F cleaner_on=1920</code>.
        </p>
      </Part>
      <Part id="store" title="Storing with a key">
        <p>
          Make a key once. It is shown once, there is no e-mail and no recovery: who loses it can no longer amend or
          withdraw their tests, but the tests stay. Then send words and log together, as <code>trial.json</code>:
        </p>
        <Listing label="The words of a trial" id="trial-json">
          {TRIAL_JSON}
        </Listing>
        <Listing label="Storing a trial" id="curl-store">
          {STORING}
        </Listing>
        <p>
          201 and <code>Location</code> tell where it is. <code>interest</code> tells readers who stood to gain. Leave{" "}
          <code>invented</code> out for a real test: invented ones are marked wherever they show and never pooled with
          real ones.
        </p>
      </Part>
      <Part id="python" title="From a single-board computer">
        <p>
          Fifteen lines of Python 3.6 or newer, with nothing to install, for a counter that writes lines to a serial
          port. The lines here are invented, three numbers each; change line 5 to what yours look like.
        </p>
        <Listing label="Lines of an invented counter" id="counter-lines">
          {COUNTER_LINES}
        </Listing>
        <Listing label="Python script" id="python-script">
          {PYTHON}
        </Listing>
        <Below id="serial">Running it</Below>
        <Listing label="Running the script on a serial port">{SERIAL}</Listing>
        <p>
          Switch the cleaner on some half hour after the aerosol, end with Ctrl-C when the air is clean. It also takes a
          file of such lines. A counter that writes CSV needs no script: send its file as above.
        </p>
      </Part>
    </>
  );
}
