import { correctedInterest, correctedWords } from "../../pins/corrected-words.ts";
import type { Since } from "../../pins/since.ts";
import type { PinnedResult } from "../../wire/pinned.ts";
import { BASIS_WORDS } from "../basis-words.ts";
import { counted } from "../counts.ts";
import { BAND_WORDS, bandPhrase, instant } from "../figures.ts";
import { InventedNote, Page } from "../page.tsx";
import { Quantity } from "../quantity.tsx";
import { COPY_PATH } from "../quote/copy-script.ts";
import type { Quoted } from "../quote/quote-of.tsx";
import type { Reader } from "../reader.ts";
import { PinnedEntryPart } from "./pinned-entry-part.tsx";
import { PinnedTrialPart } from "./pinned-trial-part.tsx";
import { SinceNote } from "./since-note.tsx";

interface Props {
  readonly reader: Reader;
  readonly result: PinnedResult;
  readonly since: Since;
  readonly quoted: Quoted;
}

/** A result as it was quoted: its figures for good, and above them what became of it. */
export function PinnedPage({ reader, result, since, quoted }: Props) {
  const { pinned, withdrawn } = result;
  const { configuration, setting } = pinned;
  const struck = withdrawn ? "struck" : undefined;
  const name = [configuration.title, setting].filter(Boolean).join(", ");
  const what = pinned.kind === "trial" ? "one test" : `pooled from ${counted(pinned.trials, "test")}`;
  return (
    <Page
      reader={reader}
      title={`${name}, ${BAND_WORDS[pinned.band] ?? pinned.band}, as quoted · Motefall`}
      script={COPY_PATH}
      head={quoted.head}
    >
      <article class="pinned">
        <h1 class={struck}>
          <bdi>{configuration.title}</bdi>
          {setting !== "" && (
            <>
              , <bdi>{setting}</bdi>
            </>
          )}
          : {what}
          {pinned.kind === "entry" && pinned.basis !== "all" && `, ${BASIS_WORDS[pinned.basis]}`}
        </h1>
        {pinned.invented && <InventedNote />}
        {withdrawn && (
          <p role="note" class="caution">
            Withdrawn on {withdrawn.at.slice(0, 10)}. It counts no more; what it said stays to be read. Whoever quotes
            it says that it was withdrawn.
            {withdrawn.reason !== null && (
              <>
                {" "}
                Why: <bdi>{withdrawn.reason}</bdi>
              </>
            )}
          </p>
        )}
        <CorrectedNote result={result} />
        <SinceNote result={result} since={since} flow={reader.flow} />
        <h2>For {bandPhrase(pinned.band)}</h2>
        <p class="figure">
          <span class={struck}>
            <Quantity of={pinned.cadr} />
          </span>
        </p>
        <p>
          The same in cubic feet a minute:{" "}
          <span class={struck}>
            <Quantity of={pinned.cadr_cfm} />
          </span>
        </p>
        {pinned.kind === "trial" ? (
          <PinnedTrialPart pinned={pinned} isCorrected={correctedInterest(result) !== null} reader={reader} />
        ) : (
          <PinnedEntryPart result={result} pinned={pinned} reader={reader} />
        )}
        {quoted.quote}
        <Pictures path={pinned.path} kind={pinned.kind} />
        <Keeping result={result} />
      </article>
    </Page>
  );
}

/** What was said beside the figure and was put right since: whoever follows a quotation must see it first, also of a withdrawn one. */
function CorrectedNote({ result }: Pick<Props, "result">) {
  const { corrections } = result;
  return correctedWords(result).map((words) => (
    <p role="note" class="caution">
      {words.slice(0, 1).toUpperCase()}
      {words.slice(1)}. What stands below is what was said then; whoever quotes it says that it was corrected.
      {corrections.length === 1 && (
        <>
          {" "}
          Corrected on {corrections[0]!.at.slice(0, 10)}: <bdi>{corrections[0]!.reason}</bdi>
        </>
      )}
    </p>
  ));
}

/** The pictures that a post can carry. */
function Pictures({ path, kind }: { readonly path: string; readonly kind: "trial" | "entry" }) {
  const plot = kind === "trial" ? "decay" : "rooms";
  return (
    <section class="unprinted">
      <h2>Pictures for a post</h2>
      <p>
        <a href={`${path}/card.png`}>
          <img
            class="card"
            src={`${path}/card.png`}
            width={1200}
            height={630}
            alt="The figure with its interval, to post"
            loading="lazy"
          />
        </a>
      </p>
      <p>
        The same <a href={`${path}/card.png?theme=dark`}>on a dark ground</a>, as <a href={`${path}/card.svg`}>SVG</a>.
        As one line: <a href={`${path}/badge.svg`}>a badge</a>.
      </p>
      <p>
        {kind === "trial" ? "The readings with their fits" : "Room by room"}, drawn as SVG:{" "}
        <a href={`${path}/${plot}.svg`}>on a light ground</a>,{" "}
        <a href={`${path}/${plot}.svg?theme=dark`}>on a dark one</a>.
      </p>
    </section>
  );
}

/** What makes it a thing to quote: the address, the hash, when it was made, under which licence. */
function Keeping({ result: { pinned, sha256, page } }: Pick<Props, "result">) {
  return (
    <section>
      <h2>Where it is kept</h2>
      <p>The figures at this address never change. A withdrawal is shown above them.</p>
      <dl>
        <dt>Address</dt>
        <dd>
          <a href={pinned.path}>{page}</a>
        </dd>
        <dt>As data</dt>
        <dd>
          <a href={`/v1${pinned.path}`}>/v1{pinned.path}</a>
        </dd>
        <dt>Made</dt>
        <dd>
          {instant(pinned.kind === "trial" ? pinned.analysed_at : pinned.stored_at)}, by{" "}
          <a href="/method#version">method {pinned.method_version}</a>
        </dd>
        <dt>Fingerprint</dt>
        <dd>
          <code>{sha256}</code>: another digit in the figures would give another (SHA-256;{" "}
          <a href="/programs#rules">how to check it</a>)
        </dd>
        <dt>Licence</dt>
        <dd>
          <a href="https://creativecommons.org/publicdomain/zero/1.0/">CC0 1.0</a>: free for any use
        </dd>
      </dl>
    </section>
  );
}
