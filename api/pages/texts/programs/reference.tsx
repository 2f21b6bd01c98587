import { Below } from "../part.tsx";
import type { Content, OpenApiDocument, Operation, Parameter } from "./openapi-document.ts";
import { Nested, SchemaList } from "./schema-list.tsx";
import { SchemaWords } from "./schema-words.tsx";

/** The whole document for people: every path with its parameters, bodies and answers, and every schema. */
export function Reference({ document }: { readonly document: OpenApiDocument }) {
  return (
    <div class="reference">
      {Object.entries(document.paths).flatMap(([path, operations]) =>
        Object.entries(operations).map(([method, operation]) => (
          <section>
            <Below id={operationId(method, path)}>
              <code>
                {method.toUpperCase()} {path}
              </code>
            </Below>
            <OperationWords of={operation} />
          </section>
        )),
      )}
      <Below id="schemas">Schemas</Below>
      <p>A question mark follows the name of a field that may be left out.</p>
      <SchemaList schemas={document.components.schemas} />
    </div>
  );
}

/** `post-v1-analyses`. */
export function operationId(method: string, path: string): string {
  return `${method}${path}`.replaceAll(/[^a-z0-9]+/gi, "-").replace(/-$/, "");
}

function OperationWords({
  of: { summary, security, parameters = [], requestBody, responses },
}: {
  readonly of: Operation;
}) {
  const answers = Object.entries(responses);
  const errors = answers.filter(([, { content }]) => content && "application/problem+json" in content);
  return (
    <>
      <p>
        {summary}.{security?.length ? " Needs a key." : null}
      </p>
      <Parameters of={parameters} />
      <ul>
        {requestBody ? (
          <li>
            Send <Bodies of={requestBody.content} />
          </li>
        ) : null}
        {answers
          .filter((each) => !errors.includes(each))
          .map(([status, { description, content }]) => (
            <li>
              {status}: {description}
              {content ? (
                <>
                  {" – "}
                  <Bodies of={content} />
                </>
              ) : null}
            </li>
          ))}
        {errors.length > 0 ? <li>Problems: {errors.map(([status]) => status).join(", ")}</li> : null}
      </ul>
    </>
  );
}

/** More than these are folded. */
const SEEN_AT_ONCE = 5;

function Parameters({ of }: { readonly of: readonly Parameter[] }) {
  if (of.length === 0) return null;
  const list = (
    <ul>
      {of.map(({ name, in: place, required, description, schema = {} }) => (
        <li>
          <code>{name}</code> ({place}
          {required && place !== "path" ? ", required" : ""}): <SchemaWords of={schema} />
          {description ? ` – ${description}` : null}
        </li>
      ))}
    </ul>
  );
  if (of.length <= SEEN_AT_ONCE) return list;
  return (
    <details>
      <summary>{of.length} parameters</summary>
      {list}
    </details>
  );
}

function Bodies({ of }: { readonly of: Content }) {
  return Object.entries(of).map(([type, { schema = {} }], i) => (
    <>
      {i > 0 ? "; " : null}
      <code>{type}</code> <SchemaWords of={schema} />
      <Nested of={schema} />
    </>
  ));
}
