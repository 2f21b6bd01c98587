import type { Spread } from "../../../analysis/expected-elsewhere.ts";
import { Page } from "../page.tsx";
import type { Reader } from "../reader.ts";
import type { ConfigurationChoice } from "./choices.ts";
import { ConfigurationFields } from "./configuration-fields.tsx";
import type { Filled } from "./field.tsx";
import { byPlace, fieldInPlace } from "./field-words.ts";
import { idOf, type Slot } from "./form-fields.ts";
import type { Kept } from "./kept-log.ts";
import { LogFields } from "./log-fields.tsx";
import { MarksFields } from "./marks-fields.tsx";
import { Preview, type PreviewProps } from "./preview.tsx";
import { PublishFields } from "./publish-fields.tsx";
import { RoomFields } from "./room-fields.tsx";
import { InterestFields, TestFields } from "./test-fields.tsx";

export interface SubmitView {
  readonly reader: Reader;
  /** Address of the page's script, null where there is none. */
  readonly script: string | null;
  readonly filled: Filled;
  /** What is wrong with the whole, beside no field. */
  readonly problems: readonly string[];
  readonly preview: Omit<PreviewProps, "complaints" | "flow"> | null;
  readonly kept: ReadonlyMap<Slot, Kept>;
  readonly found: readonly ConfigurationChoice[] | null;
  readonly similar: readonly ConfigurationChoice[] | null;
  readonly isNewKey: boolean;
  /** What holds between laboratories, for the page's script. */
  readonly spread: Spread;
}

/** The form that adds a test: the log and the room first, a look at what they say, then the rest. */
export function SubmitPage(view: SubmitView) {
  const { reader, script, filled, problems, preview, kept, found, similar, isNewKey, spread } = view;
  const isWrong = filled.complaints.length > 0 || problems.length > 0;
  return (
    <Page reader={reader} title="Add a test · Motefall" script={script}>
      <h1>Add a test</h1>
      <p>
        All it takes for a first look is the log of a particle counter and the size of the room. Nothing is stored
        before you publish. How to run the test: <a href="/plan">plan a test</a>, <a href="/method">the method</a>.
      </p>
      <Caution />
      {isWrong && <Summary filled={filled} problems={problems} />}
      <form
        id="test"
        class="submit"
        action="/submit"
        method="post"
        enctype="multipart/form-data"
        data-flow={reader.flow}
        data-spread={JSON.stringify({ relative: spread.relative, dof: spread.dof, source: spread.source })}
        novalidate
      >
        <LogFields filled={filled} kept={kept} />
        <RoomFields filled={filled} />
        <p>
          <button class="first" type="submit" name="do" value="preview" formaction="/submit#result">
            Show what it says
          </button>
        </p>
        <section id={isWrong ? undefined : "result"}>
          <h2 class="unseen">What the log says</h2>
          <div id="preview">
            {preview && <Preview {...preview} flow={reader.flow} complaints={filled.complaints} />}
          </div>
        </section>
        <MarksFields filled={filled} />
        <ConfigurationFields filled={filled} found={found} similar={similar} />
        <InterestFields filled={filled} />
        <TestFields filled={filled} />
        <PublishFields filled={filled} isNewKey={isNewKey} />
      </form>
    </Page>
  );
}

/** Of REFERENCE's cautions, what somebody about to make a test should read first. */
function Caution() {
  return (
    <p class="caution">
      Whatever smoulders or heats oil can start a fire and is bad to breathe: stay with it, away from the filters, smoke
      alarm on, way out clear, nobody with asthma in the room; mind carbon monoxide with the windows shut. Keep a wet
      nebuliser away from the mains, and never leave a taped fan alone. <a href="/safety">More on safety</a>
    </p>
  );
}

/** What is wrong, with links to where it is. */
function Summary({ filled, problems }: { filled: Filled; problems: readonly string[] }) {
  const { complaints } = filled;
  const count = complaints.length + problems.length;
  return (
    <div id="result" class="summary" tabindex={-1} role="alert" autofocus>
      <h2>{count === 1 ? "One thing to put right" : `${count} things to put right`}</h2>
      <ul>
        {problems.map((problem) => (
          <li>
            <bdi>{problem}</bdi>
          </li>
        ))}
        {complaints
          .toSorted((a, b) => byPlace(a.field, b.field))
          .map(({ field, detail }) => (
            <li>
              <a href={`#${idOf(field)}`}>
                {fieldInPlace(field)}: <bdi>{detail}</bdi>
              </a>
            </li>
          ))}
      </ul>
      <p class="hint">
        {filled.fields.size > 0 ? "What was filled in is kept below." : "Nothing of what was sent could be read."}
      </p>
    </div>
  );
}
