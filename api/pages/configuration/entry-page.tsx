import { pinPath } from "../../pins/pin.ts";
import type { EntryOut } from "../../wire/entry.ts";
import { AS_TABLE } from "../as-table.ts";
import { BASIS_WORDS, PAIRED_WORDS } from "../basis-words.ts";
import { CleanerTitle, cleanerWords } from "../cleaner-name.tsx";
import { testWords } from "../counts.ts";
import { BAND_WORDS, bandAtFirst } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import { Between, Missing, Quantity } from "../quantity.tsx";
import { COPY_PATH } from "../quote/copy-script.ts";
import type { Quoted } from "../quote/quote-of.tsx";
import type { Reader } from "../reader.ts";
import { WhoPaid } from "../who-paid.tsx";
import { EntrySection } from "./entry-section.tsx";
import { type YearAsked, YearForm, YearWrong } from "./year-form.tsx";

interface Props {
  readonly reader: Reader;
  readonly entry: EntryOut;
  readonly page: string;
  readonly year: YearAsked;
  /** How to quote its figure; null where no test counts. */
  readonly quoted: Quoted;
}

/** One configuration at one setting for one size of particles: a figure to quote, on every basis. */
export function EntryPage({ reader, entry, page, year, quoted }: Props) {
  const { configuration, setting, band, invented } = entry;
  const { flow } = reader;
  return (
    <Page
      reader={reader}
      script={quoted.quote ? COPY_PATH : null}
      head={quoted.head}
      title={`${cleanerWords(configuration.title, setting)}, ${BAND_WORDS[band]} · Motefall`}
    >
      <h1>
        <CleanerTitle title={configuration.title} setting={setting} />
      </h1>
      {invented && <InventedNote />}
      <p>
        <a href={`/configurations/${configuration.id}?${new URLSearchParams({ band, setting })}`}>
          What it is made of, its other settings and relatives
        </a>
      </p>
      <YearWrong asked={year} />
      <h2>For {bandAtFirst(band)}</h2>
      <EntrySection entry={entry} flow={flow} />
      {quoted.quote}
      <Address entry={entry} page={page} />
      <h2>By who tested, and how</h2>
      <BasisTable entry={entry} />
      <h2 id="year">What a year costs</h2>
      <YearForm action={`/entries/${entry.id}`} kept={{}} asked={year} />
    </Page>
  );
}

/** Where the figure stands for good: what to quote instead of this page, which changes with every test. */
function Address({ entry: { id, bases }, page }: Pick<Props, "entry" | "page">) {
  const { all } = bases;
  const path = all?.cadr ? pinPath({ kind: "entry", entry: id, basis: "all", seq: all.as_of_seq }) : null;
  return (
    <p class="quiet">
      {path && (
        <>
          Address to quote, whose figures never change: <a href={path}>{page.replace(`/entries/${id}`, path)}</a>.{" "}
        </>
      )}
      As data: <a href={`/v1/entries/${id}`}>/v1/entries/{id}</a>.
    </p>
  );
}

function BasisTable({ entry }: { readonly entry: EntryOut }) {
  return (
    <table class="stacks" {...AS_TABLE.table}>
      <caption>
        The same pooled over fewer tests. Independent: bought or built by the tester. Paired: {PAIRED_WORDS}. 95&nbsp;%
        intervals
      </caption>
      <thead>
        <tr {...AS_TABLE.row}>
          <th {...AS_TABLE.head}>Tests that count</th>
          <th {...AS_TABLE.head}>Clean air</th>
          <th {...AS_TABLE.head}>In another room</th>
          <th {...AS_TABLE.head}>Tests</th>
          <th {...AS_TABLE.head}>Who paid</th>
        </tr>
      </thead>
      <tbody>
        {Object.entries(BASIS_WORDS).map(([name, words]) => {
          const basis = entry.bases[name as keyof EntryOut["bases"]];
          return (
            <tr {...AS_TABLE.row}>
              <th {...AS_TABLE.rowHead}>{words}</th>
              <td {...AS_TABLE.cell} data-head="Clean air">
                <Quantity of={basis?.cadr ?? null} missing="no such test counts" />
              </td>
              <td {...AS_TABLE.cell} data-head="In another room">
                {basis?.prediction ? <Between of={basis.prediction} /> : <Missing why="no such test counts" />}
              </td>
              <td {...AS_TABLE.cell} data-head="Tests">
                {basis?.cadr ? testWords(basis) : "none"}
              </td>
              <td {...AS_TABLE.cell} data-head="Who paid">
                {basis?.cadr ? <WhoPaid interest={basis.interest} /> : "nobody"}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
