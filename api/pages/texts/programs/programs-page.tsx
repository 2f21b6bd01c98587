import type { Child } from "hono/jsx";
import { Page } from "../../page.tsx";
import type { Reader } from "../../reader.ts";
import { Contents, Part } from "../part.tsx";
import { SafetyLine } from "../safety-short.tsx";
import { CallsPart } from "./calls-part.tsx";
import { RulesPart } from "./rules-part.tsx";
import { SpreadsheetPart } from "./spreadsheet-part.tsx";

const PARTS = [
  ["shortest", "The shortest call"],
  ["store", "Storing with a key"],
  ["python", "From a single-board computer"],
  ["spreadsheet", "In a spreadsheet"],
  ["rules", "What holds for every call"],
  ["reference", "Reference"],
  ["schemas", "Schemas"],
] as const;

interface Props {
  readonly reader: Reader;
  readonly publicUrl: string;
  readonly reference: Child;
}

/** For people who write programs. */
export function ProgramsPage({ reader, publicUrl, reference }: Props) {
  return (
    <Page reader={reader} title="For programs · Motefall">
      <article class="text">
        <h1>For programs</h1>
        <p>
          Everything these pages show and do can be asked for as JSON, by the same functions. What you send is analysed
          the same way, whoever sends it. Programs call a test a trial, and its tester a submitter.
        </p>
        <SafetyLine />
        <Contents of={PARTS} />
        <CallsPart />
        <SpreadsheetPart />
        <RulesPart publicUrl={publicUrl} />
        <Part id="reference" title="Reference">
          <p>
            Made from <a href="/openapi.json">/openapi.json</a> (OpenAPI 3.1), which is made from the schemas that check
            each request.
          </p>
          {reference}
        </Part>
      </article>
    </Page>
  );
}
