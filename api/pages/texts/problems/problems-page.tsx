import { READING_CODES, type ReadingCode } from "../../../../analysis/reading/reading-error.ts";
import { ERRORS, type ErrorCode } from "../../../problem.ts";
import { Page } from "../../page.tsx";
import type { Reader } from "../../reader.ts";
import { Contents, Part } from "../part.tsx";
import { PROBLEM_REMEDIES } from "./problem-remedies.ts";
import { READING_REMEDIES } from "./reading-remedies.ts";

const PARTS = [
  ["form", "What an answer holds"],
  ["codes", "Every code"],
  ["reading", "Logs that cannot be read"],
] as const;

/** Where the `type` of every problem document leads: `/problems#code`. */
export function ProblemsPage({ reader }: { readonly reader: Reader }) {
  return (
    <Page reader={reader} title="Problems · Motefall">
      <article class="text">
        <h1>Problems</h1>
        <p>
          What cannot be served is answered with a problem document, whose <code>type</code> leads to this page. Codes
          and statuses stay as they are; the words may get better.
        </p>
        <Contents of={PARTS} />
        <Part id="form" title="What an answer holds">
          <p>
            A document of <code>application/problem+json</code> (RFC 9457) with <code>type</code>, <code>title</code>,{" "}
            <code>status</code>, <code>code</code> and <code>detail</code>. Where places of the request are wrong,{" "}
            <code>errors</code> lists each with a JSON pointer. Go by <code>code</code>; <code>detail</code> is for
            people. Pages answer people with a page instead.
          </p>
        </Part>
        <Part id="codes" title="Every code">
          <dl class="entries">
            {(Object.keys(ERRORS) as ErrorCode[]).map((code) => (
              <>
                <dt id={code}>
                  <code>{code}</code> <small>{ERRORS[code].status}</small>
                </dt>
                <dd>
                  {ERRORS[code].title}. <span class="next">{PROBLEM_REMEDIES[code]}</span>
                </dd>
              </>
            ))}
          </dl>
        </Part>
        <Part id="reading" title="Logs that cannot be read">
          <p>
            A file that cannot be read is <a href="#invalid">invalid</a>, and the document says why in{" "}
            <code>reading</code>: the column and line stand in <code>detail</code>.
          </p>
          <dl class="entries">
            {(Object.keys(READING_CODES) as ReadingCode[]).map((code) => (
              <>
                <dt id={`reading-${code}`}>
                  <code>{code}</code>
                </dt>
                <dd>
                  {sentence(READING_CODES[code])} <span class="next">{READING_REMEDIES[code]}</span>
                </dd>
              </>
            ))}
          </dl>
        </Part>
      </article>
    </Page>
  );
}

function sentence(words: string): string {
  return `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}
