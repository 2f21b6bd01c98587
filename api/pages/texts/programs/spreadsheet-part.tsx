import { Listing } from "../listing.tsx";
import { Below, Part } from "../part.tsx";
import { FORMULAS } from "./examples.ts";

/** The list and a run in a spreadsheet, and what a line through ln C there says. */
export function SpreadsheetPart() {
  return (
    <Part id="spreadsheet" title="In a spreadsheet">
      <p>Open these addresses from your spreadsheet’s import from the web, or save and open them:</p>
      <ul>
        <li>
          <a href="/v1/leaderboard?format=csv">/v1/leaderboard?format=csv</a> – the list, with the same filters as the
          page;
        </li>
        <li>
          <code>/v1/trials/trl-…/runs/0/series.csv</code> – the readings of a run: seconds in the first column, then a
          column a channel. A test’s page links them.
        </li>
      </ul>
      <p>
        Cells that a spreadsheet could take for a formula begin with an apostrophe, so that no stranger’s words run on
        your machine. Numbers have a decimal point: tell the import so where your spreadsheet expects a comma.
      </p>
      <Below id="by-hand">Checking a rate by hand</Below>
      <p>
        Take the rows of a window and the background from the test’s page: seconds in A, the channel in B, the
        background in E1. Here the window is rows 200 to 260; copy C200 down to C260. Other languages have other names
        for these functions, and a semicolon where the decimal comma is used.
      </p>
      <Listing label="Formulas for a spreadsheet" id="formulas">
        {FORMULAS}
      </Listing>
      <p>
        <code>E2</code> is <i>k</i> per hour. End where the readings have fallen to 5&nbsp;% of the start. With the
        fitted background in E1 it should come near the fit; with the clean air before the test instead,{" "}
        <code>=MEDIAN(B2:B28)</code>, near the straight line shown beside it, for under a cleaner the background is
        lower than before. It will never be the same: the fit weighs readings by how well they are known, leaves single
        ones out, and does not take the background for exact. <code>E3</code>, what the line claims as its standard
        error, is too small to be quoted, for it takes neighbours for independent;{" "}
        <a href="/method#scatter">the method</a> says why. And the clean air is the volume times the difference of two
        such rates.
      </p>
    </Part>
  );
}
