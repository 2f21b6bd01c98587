import type { ComparisonOut } from "../../wire/comparison.ts";
import { BASIS_WORDS } from "../basis-words.ts";
import { DifferencePlot } from "../charts/difference-plot.tsx";
import { shownEnds } from "../charts/shown-ends.ts";
import { BAND_WORDS, bandPhrase, unitWords } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import { inOtherUnit, type Reader } from "../reader.ts";
import { ComparedTable } from "./compared-table.tsx";
import { ConditionsTable } from "./conditions-table.tsx";
import { letterOf } from "./letters.ts";
import { PairSection } from "./pair-section.tsx";

/** Two to six results side by side, and every two of them against each other. */
export function ComparePage({ reader, comparison }: { readonly reader: Reader; readonly comparison: ComparisonOut }) {
  const { entries, pairs, band, basis, unit } = comparison;
  const invented = entries.filter((entry) => entry.invented).length;
  const rates = entries.flatMap(({ cadr }) => (cadr ? [cadr] : []));
  const ids = entries.map(({ id }) => id).join(",");
  const asked = { entries: ids, ...(basis === "all" ? {} : { basis }) };
  const other = inOtherUnit(reader);
  return (
    <Page reader={reader} title={`Compare, ${BAND_WORDS[band]} · Motefall`}>
      <h1>
        {entries.length} results for {bandPhrase(band)}
      </h1>
      {invented > 0 && <InventedNote some={invented < entries.length} />}
      {basis !== "all" && <p>Only {BASIS_WORDS[basis]} count here.</p>}
      <p class="unprinted">
        Flows in {unitWords(unit)}; <a href={other.href}>show them in {unitWords(other.unit)}</a>.
      </p>
      <ComparedTable comparison={comparison} />
      <h2>Each against each</h2>
      <DifferencePlot pairs={pairs} letter={letterOf(comparison)} unit={unit} most={2 * shownEnds(rates).high} />
      {pairs.length > 1 && (
        <p class="quiet">
          Each interval is made for its pair alone: of many pairs that are equal about one in twenty looks different by
          chance.
        </p>
      )}
      {pairs.map((pair) => (
        <PairSection pair={pair} comparison={comparison} />
      ))}
      <h2>How the tests were made</h2>
      <ConditionsTable entries={entries} />
      <p class="unprinted">
        <a href={`/compare?${new URLSearchParams({ ...asked, band, do: "find" })}`}>Choose others</a>
      </p>
      <p class="unprinted">
        As data: <a href={`/v1/comparison?${new URLSearchParams({ ...asked, unit })}`}>the same comparison as JSON</a>
      </p>
    </Page>
  );
}
