import type { EntryOut } from "../../wire/entry.ts";
import { counted, testWords } from "../counts.ts";
import { BAND_LIKE, BAND_WORDS, bandPhrase } from "../figures.ts";
import { KIND_WORDS } from "../kind-words.ts";
import { InventedNote, Page } from "../page.tsx";
import { Missing, Quantity } from "../quantity.tsx";
import type { Reader } from "../reader.ts";
import { WhoPaid } from "../who-paid.tsx";
import { Cautions } from "./cautions.tsx";
import type { Described } from "./described.ts";
import { EntrySection } from "./entry-section.tsx";
import { InMyRoom } from "./in-my-room.tsx";
import { Relatives } from "./relatives.tsx";
import { submitAddress } from "./submit-address.ts";
import { Untested } from "./untested.tsx";
import { WhatItIs } from "./what-it-is.tsx";
import { WhoDescribed } from "./who-described.tsx";
import { type YearAsked, YearForm, YearWrong } from "./year-form.tsx";

interface Props {
  readonly reader: Reader;
  readonly described: Described;
  readonly year: YearAsked;
}

/** A configuration: what its tests found at each setting, what it is made of, what resembles it. */
export function ConfigurationPage({ reader, described, year }: Props) {
  const { view, words, settings, band, bands, entries, opened, relatives } = described;
  const { flow } = reader;
  const invented = entries.filter((entry) => entry.invented).length;
  const filterLife = (view as { filter_life?: { value: number; unit: string } }).filter_life ?? null;
  return (
    <Page reader={reader} title={`${view.title} · Motefall`}>
      <h1>
        <bdi>{view.title}</bdi>
      </h1>
      {invented > 0 && <InventedNote some={invented < entries.length} />}
      <p class="quiet">
        {KIND_WORDS[view.kind] === "home-made" ? "Home-made" : "Commercial, as sold"}
        {words.maker && (
          <>
            : <bdi>{words.maker}</bdi> <bdi>{words.model}</bdi>
          </>
        )}
        . <WhoDescribed view={view} />
      </p>
      <YearWrong asked={year} />
      <p class="quiet">Particles only: gases, solvent and glue vapours are not measured here.</p>
      <Bands id={view.id} bands={bands} band={band} />
      {entries.length === 0 && (
        <p>
          {bands.size > 0 ? `No test tells of ${bandPhrase(band)}.` : "Nobody has tested it yet."}{" "}
          <a href={submitAddress(view.id)}>Add a test of it</a>
        </p>
      )}
      {entries.map((entry) => (
        <Setting entry={entry} isOpen={entry.id === opened?.id} isOnly={entries.length === 1} flow={flow} />
      ))}
      <Untested described={described} />
      {entries.length > 0 && (
        <details open={Object.keys(year.texts).length > 0} id="year">
          <summary>What a year of running it costs</summary>
          <YearForm
            action={`/configurations/${view.id}`}
            kept={{ band, ...(opened ? { setting: opened.setting } : {}) }}
            asked={year}
          />
        </details>
      )}
      <WhatItIs words={words} filterLife={filterLife} flow={flow} />
      <Cautions words={words} />
      <Relatives
        derivation={view.derivation}
        relatives={relatives}
        opened={opened?.bases.all?.cadr ? opened : null}
        others={entries.filter((entry) => entry !== opened && entry.bases.all?.cadr)}
      />
      {opened && <InMyRoom band={band} flow={flow} isUnpaired={isSingleUnpaired(opened)} />}
      <p class="quiet unprinted">
        As data: <a href={`/v1/configurations/${view.id}`}>/v1/configurations/{view.id}</a>,{" "}
        <a href={`/v1/configurations/${view.id}/filters`}>the same box by its filters</a>
        {settings.length > 0 && "; each figure under its own address"}.
      </p>
    </Page>
  );
}

function Bands({
  id,
  bands,
  band,
}: {
  readonly id: string;
  readonly bands: Described["bands"];
  readonly band: string;
}) {
  const known = Object.entries(BAND_WORDS).filter(([name]) => bands.has(name) || name === band);
  if (bands.size === 0) return null;
  return (
    <nav aria-label="Particle sizes" class="particle-sizes">
      {known.map(([name, words]) => (
        <a
          href={`/configurations/${id}?${new URLSearchParams({ band: name })}`}
          aria-current={name === band ? "page" : undefined}
        >
          {words}{" "}
          <small>
            {BAND_LIKE[name]}, {counted(bands.get(name) ?? 0, "test")}
          </small>
        </a>
      ))}
    </nav>
  );
}

interface SettingProps {
  readonly entry: EntryOut;
  readonly isOpen: boolean;
  readonly isOnly: boolean;
  readonly flow: Reader["flow"];
}

/** One setting: in short while it is folded, whole when it is opened. */
function Setting({ entry, isOpen, isOnly, flow }: SettingProps) {
  const body = (
    <>
      <EntrySection entry={entry} flow={flow} quoting={<a href={`/entries/${entry.id}#quote`}>Quote this figure</a>} />
      <p class="actions unprinted">
        <a href={`/entries/${entry.id}`}>This figure alone, on every basis</a>
        <a href={submitAddress(entry.configuration.id, entry.setting)}>Add a test of this</a>
      </p>
    </>
  );
  const name = (
    <>
      {entry.setting ? <bdi>{entry.setting}</bdi> : "As it runs"}
      {entry.invented && (
        <>
          {" "}
          <em>invented</em>
        </>
      )}
    </>
  );
  if (isOnly) {
    return (
      <section class="setting">
        <h2>{name}</h2>
        {body}
      </section>
    );
  }
  const basis = entry.bases.all;
  return (
    <details class="setting" open={isOpen} id={entry.id}>
      <summary>
        <h2>{name}</h2>{" "}
        <span class="in-short">
          {basis?.cadr ? (
            <>
              <Quantity of={basis.cadr} />, {testWords(basis)}; <WhoPaid interest={basis.interest} />
            </>
          ) : (
            <Missing why="no test counts at present" />
          )}
        </span>
      </summary>
      {body}
    </details>
  );
}

/** Such entries are left out of lists unless they are asked for. */
function isSingleUnpaired({ bases: { all } }: EntryOut): boolean {
  return all !== null && all.trials === 1 && all.unpaired === 1;
}
