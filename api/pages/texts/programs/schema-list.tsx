import { refersTo, type Schema } from "./openapi-document.ts";
import { SchemaWords } from "./schema-words.tsx";

/** Every schema the document names, folded. */
export function SchemaList({ schemas }: { readonly schemas: Readonly<Record<string, Schema>> }) {
  return Object.entries(schemas).map(([name, schema]) => (
    <details>
      <summary>{name}</summary>
      <div id={`schema-${name}`}>
        {schema.description ? <p>{schema.description}</p> : null}
        <Inside of={schema} />
      </div>
    </details>
  ));
}

/** The fields of an object; of anything else what it must be. */
function Inside({ of }: { readonly of: Schema }) {
  if (of.properties) return <Fields of={of} />;
  const choices = of.anyOf ?? of.oneOf ?? of.allOf;
  if (!choices?.some(hasFields)) {
    return (
      <p>
        <SchemaWords of={of} />
      </p>
    );
  }
  return choices.map((choice, i) => (
    <>
      {i > 0 ? <p>{of.allOf ? "and" : "or"}</p> : null}
      <Inside of={choice} />
    </>
  ));
}

function Fields({ of: { properties = {}, required = [] } }: { readonly of: Schema }) {
  return (
    <ul>
      {Object.entries(properties).map(([name, schema]) => (
        <li>
          <code>{name}</code>
          {required.includes(name) ? "" : "?"}: <SchemaWords of={schema} />
          {schema.description && !refersTo(schema) ? ` – ${schema.description}` : null}
          <Nested of={schema} />
        </li>
      ))}
    </ul>
  );
}

/** Fields of what has no name of its own. */
export function Nested({ of }: { readonly of: Schema }) {
  if (refersTo(of)) return null;
  const inner = of.items ?? (typeof of.additionalProperties === "object" ? of.additionalProperties : undefined);
  if (of.properties) return <Fields of={of} />;
  if (inner) return <Nested of={inner} />;
  return (of.anyOf ?? of.oneOf ?? of.allOf)?.map((choice) => <Nested of={choice} />) ?? null;
}

function hasFields(schema: Schema): boolean {
  return schema.properties !== undefined || (schema.anyOf ?? schema.oneOf ?? schema.allOf ?? []).some(hasFields);
}
