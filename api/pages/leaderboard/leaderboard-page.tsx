import { LIST_TYPES, type ListFormat } from "../../leaderboard-formats.ts";
import type { LeaderboardOut } from "../../wire/leaderboard.ts";
import { UNPAIRED_WORDS } from "../basis-words.ts";
import { NoiseChart } from "../charts/noise-chart.tsx";
import { BAND_LIKE, BAND_WORDS, bandPhrase, instant, unitWords } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import { inOtherUnit, type Reader } from "../reader.ts";
import { FilterForm } from "./filter-form.tsx";
import { LeaderboardTable } from "./leaderboard-table.tsx";
import { LeftOut, ListCount } from "./left-out.tsx";
import { dataAddress, isFiltered, pageAddress } from "./list-address.ts";
import type { Question } from "./question.ts";
import { WhatIsWrong } from "./what-is-wrong.tsx";

interface Props {
  readonly reader: Reader;
  readonly question: Question;
  /** Null where the question could not be understood. */
  readonly board: LeaderboardOut | null;
}

/** The leaderboard: what cleans how much air, with its uncertainty, who paid, and how often it was tested. */
export function LeaderboardPage({ reader, question, board }: Props) {
  const texts = board ? question.texts : {};
  const band = board?.band ?? "0.1-1.0";
  return (
    <Page reader={reader} title={`Clean air delivery rates, ${BAND_WORDS[band]} · Motefall`}>
      <h1>How much air does it clean?</h1>
      <p>
        Clean air delivery rates (CADR) of air cleaners, from decay tests that volunteers made. Particles only: gases,
        solvent and glue vapours are not measured here. <a href="/room">Which suits my room?</a>
      </p>
      {board && <Invented board={board} />}
      <nav aria-label="Particle sizes" class="particle-sizes">
        {Object.entries(BAND_WORDS).map(([name, words]) => (
          <a href={pageAddress(texts, { band: name })} aria-current={board?.band === name ? "page" : undefined}>
            {words} <small>{BAND_LIKE[name]}</small>
          </a>
        ))}
      </nav>
      <WhatIsWrong question={question} />
      <FilterForm question={question} />
      {board && <List board={board} texts={question.texts} reader={reader} />}
    </Page>
  );
}

function Invented({ board: { entries } }: { readonly board: LeaderboardOut }) {
  const invented = entries.filter((entry) => entry.invented).length;
  return invented === 0 ? null : <InventedNote some={invented < entries.length} />;
}

function List({ board, texts, reader }: { board: LeaderboardOut; texts: Question["texts"]; reader: Reader }) {
  const other = inOtherUnit(reader);
  const then = texts.as_of;
  const asked = isFiltered(texts) || board.entries.length === 0;
  return (
    <>
      {then && (
        <p>
          The list as it stood on {instant(then)}. <a href={pageAddress(texts, { as_of: null })}>As it stands now</a>
        </p>
      )}
      <ListCount board={board} why={!asked}>
        Flows in {unitWords(board.unit)}; <a href={other.href}>show them in {unitWords(other.unit)}</a>.
      </ListCount>
      {asked && <LeftOut board={board} texts={texts} />}
      {board.entries.length === 0 ? (
        <Nothing board={board} texts={texts} />
      ) : (
        <>
          <LeaderboardTable board={board} />
          <Pages board={board} texts={texts} />
          {!asked && <LeftOut board={board} texts={texts} />}
          <h2>Clean air against noise</h2>
          <NoiseChart board={board} />
        </>
      )}
      <h2>How to read this</h2>
      <ul>
        <li>
          Every log is fitted in the same way, and what the room loses by itself is taken off, so that tests in
          different rooms can be pooled and compared.
        </li>
        <li>
          “May be”: the ranks left open at 95&nbsp;% for all rows at once, which takes wider intervals than those shown.
        </li>
        <li>
          An interval of clean air is about the mean that many laboratories would find, and is made to hold it 95 times
          in 100. In one more room the cleaner may do more or less: the page of each cleaner shows that wider interval.
        </li>
        <li>
          Where two overlap, their order may be chance: <a href="/compare">comparing them</a> tells how sure the
          difference is.
        </li>
        <li>Ranks go by the clean air delivery rate, whatever the order; = before one: others have the same figure.</li>
        <li>
          Noise is the A-weighted sound pressure level at 1 m, as if in the open; power is what testers read. Both stand
          with their 95 % interval, and are of the tests that measured them.
        </li>
        <li>Prices are stated for the whole cleaner by whoever described it; they have no interval.</li>
        <li>
          Natural loss is the natural decay: what settles and leaks with the cleaner off. Unpaired: {UNPAIRED_WORDS}.
        </li>
        <li>
          <a href="/method">How the figures are made</a>
        </li>
      </ul>
      <p class="unprinted">
        This list as data:{" "}
        {(Object.keys(LIST_TYPES) as ListFormat[]).map((format, i) => (
          <>
            {i > 0 && ", "}
            <a href={dataAddress(texts, board.unit, format)}>{format === "ndjson" ? "NDJSON" : format.toUpperCase()}</a>
          </>
        ))}
        {board.shown > 200 && " (200 rows at a time; the answer names the address of the next)"}
      </p>
      <p class="quiet">{board.as_of ? `As of ${instant(board.as_of)}.` : "No test is stored yet."}</p>
    </>
  );
}

function Nothing({ board, texts }: { readonly board: LeaderboardOut; readonly texts: Question["texts"] }) {
  if (texts.cursor) return <p>There is nothing after this place. The first page has what is listed.</p>;
  if (!isFiltered(texts) && board.as_of === null)
    return (
      <p>
        Nothing is listed for {bandPhrase(board.band)} yet. <a href="/submit">Add a test</a>
      </p>
    );
  return (
    <p>
      Nothing that is listed for {bandPhrase(board.band)} fits.{" "}
      <a href={pageAddress({ band: board.band })}>No filter</a>
    </p>
  );
}

function Pages({ board, texts }: { readonly board: LeaderboardOut; readonly texts: Question["texts"] }) {
  const cursor = board.next && new URL(board.next).searchParams.get("cursor");
  if (!cursor && !texts.cursor) return null;
  return (
    <nav aria-label="Pages of the list">
      {texts.cursor && <a href={pageAddress(texts)}>First page</a>}
      {cursor && <a href={pageAddress(texts, { cursor })}>Next page</a>}
    </nav>
  );
}
