import { Listing } from "../listing.tsx";
import { Below, Part } from "../part.tsx";

/** What an interval says, and what it does not. */
export function MeaningPart() {
  return (
    <Part id="meaning" title="What an interval means, and what it does not">
      <p>
        Of 100 intervals made this way about 95 hold the true value, as far as the model holds. Which five do not,
        nobody can see from outside. So quote the interval, not its middle alone, and say which of these it is:
      </p>
      <ul>
        <li>
          A single <b>test’s</b> interval is a claim about this room and this counter on that day. Another counter, even
          on the same run, may read 12&nbsp;% higher and both be right about themselves.
        </li>
        <li>
          A <b>pooled</b> interval is about the mean that many laboratories would find. It mostly narrows with each one,
          and widens where they turn out to differ.
        </li>
        <li>
          A <b>prediction</b> (“in another room”) is where the figure of one more room and counter is expected with
          95&nbsp;%; a test there adds its own uncertainty. It never narrows to nothing. For your own room this is the
          one to use.
        </li>
        <li>
          It is <b>not</b> the range of what was measured, not a tolerance of what is sold, and not a promise for a
          filter that is a year old.
        </li>
        <li>
          Two intervals that overlap a little may still differ. <a href="/compare">Compare</a> works out the difference,
          in which common errors cancel.
        </li>
        <li>
          It holds as far as the model does. What the analysis sees going wrong is told as a{" "}
          <a href="#findings">finding</a>; what it cannot see stands under <a href="#limits">limits</a>.
        </li>
      </ul>
      <Below id="coverage">Whether it is true</Below>
      <p>
        Simulated tests have a known truth, so one can count how often intervals hold it. The project does so kind by
        kind: paired runs, whole logs without marks, two counters, few counts, slow cleaners, high floors; and kinds
        that break the model: rooms that are not mixed, cleaners and counters that drift, lag that nobody stated, errors
        that last long. Run it yourself:
      </p>
      <Listing label="How to measure coverage">npm run coverage -- --trials 1000 --seed 1,2,3</Listing>
      <p>
        It prints the table and fails where a limit is broken: 93 to 98&nbsp;% for each kind the model describes, 93.5
        to 97.5&nbsp;% for these together, 88&nbsp;% or more for each kind that breaks it (in a room that is not mixed
        the truth is the room’s own rate; what the cleaner delivered there is printed beside it, without a limit). Its
        tables are not kept in the project, so none is quoted here. A small share of it runs with every test. For pools
        and ranks: <code>node test/campaigns/registry.ts --repetitions 200 --seed 1</code>.
      </p>
    </Part>
  );
}
