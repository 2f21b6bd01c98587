import { refersTo, type Schema } from "./openapi-document.ts";

/** What a value must be, in a line: its kind, choices and limits, and what it refers to. */
export function SchemaWords({ of }: { readonly of: Schema }) {
  const name = refersTo(of);
  if (name !== null) return <a href={`#schema-${name}`}>{name}</a>;
  const choices = of.anyOf ?? of.oneOf ?? of.allOf?.filter(says);
  if (choices) return <Joined of={choices} by={of.allOf ? " and " : " or "} />;
  if (of.enum) return <code>{of.enum.map((value) => JSON.stringify(value)).join(" | ")}</code>;
  if (of.const !== undefined) return <code>{JSON.stringify(of.const)}</code>;
  if (of.items) {
    return (
      <>
        array of <SchemaWords of={of.items} />
        {limits(of)}
      </>
    );
  }
  return `${kindOf(of)}${limits(of)}`;
}

function Joined({ of, by }: { readonly of: readonly Schema[]; readonly by: string }) {
  return of.map((each, i) => (
    <>
      {i > 0 ? by : null}
      <SchemaWords of={each} />
    </>
  ));
}

/** Whether a schema asks for anything: some only describe. */
function says(schema: Schema): boolean {
  return Object.keys(schema).some((key) => key !== "description");
}

function kindOf({ type, format, additionalProperties }: Schema): string {
  const kind = type === undefined ? "anything" : typeof type === "string" ? type : type.join(" or ");
  const free = kind === "object" && typeof additionalProperties === "object" ? " of names of your own" : "";
  return `${kind}${free}${format ? ` (${format})` : ""}`;
}

function limits(of: Schema): string {
  const stated: readonly (readonly [string, unknown])[] = [
    ["from", of.minimum],
    ["over", of.exclusiveMinimum],
    ["to", of.maximum],
    ["under", of.exclusiveMaximum],
    ["characters at least", of.minLength],
    ["characters at most", of.maxLength],
    ["items at least", of.minItems],
    ["items at most", of.maxItems],
    ["matching", of.pattern],
    ["else", of.default === undefined ? undefined : JSON.stringify(of.default)],
  ];
  return stated
    .filter(
      ([, value]) => value !== undefined && value !== Number.MAX_SAFE_INTEGER && value !== Number.MIN_SAFE_INTEGER,
    )
    .map(([words, value]) => `, ${words} ${value}`)
    .join("");
}
