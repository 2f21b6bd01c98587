import fc from "fast-check";
import * as hono from "hono/jsx/jsx-runtime";
import { expect, test } from "vitest";
import * as ours from "../../../api/browser/html-runtime.ts";

type Tree = string | number | boolean | null | undefined | readonly Tree[] | Element;
interface Element {
  readonly tag: string;
  readonly component: boolean;
  readonly attributes: Readonly<Record<string, string | number | boolean | null | undefined>>;
  readonly children: Tree;
}

const words = fc.oneof(fc.string(), fc.constantFrom(`<b>&amp;"'`, "</script>", "\u202e", "ü m³/h"));
const attributes = fc.dictionary(
  fc.constantFrom(
    "class",
    "id",
    "hidden",
    "checked",
    "disabled",
    "open",
    "data-head",
    "aria-invalid",
    "viewBox",
    "value",
  ),
  fc.oneof(words, fc.double({ noNaN: true }), fc.boolean(), fc.constant(null), fc.constant(undefined)),
);
const { tree } = fc.letrec<{ tree: Tree }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4 },
    words,
    fc.integer(),
    fc.constant(false), // as a condition leaves it
    fc.constant(null),
    fc.array(tie("tree"), { maxLength: 3 }),
    fc.record({
      tag: fc.constantFrom("p", "td", "svg", "path", "br", "input", "option", "bdi"),
      component: fc.boolean(),
      attributes,
      children: tie("tree"),
    }),
  ),
}));

/** The same tree by one runtime or the other; a component puts its children into an element of its own. */
function written(runtime: typeof hono | typeof ours, tree: Tree): string {
  const made = (of: Tree): unknown => {
    if (Array.isArray(of)) return of.map(made);
    if (typeof of !== "object" || of === null) return of;
    const { tag, component, attributes: given, children } = of as Element;
    const empty = children === undefined || tag === "br" || tag === "input"; // which hold nothing
    const props = { ...given, ...(empty ? {} : { children: made(children) }) };
    const element = (inner: object) => runtime.jsx(tag, inner as never);
    return component ? runtime.jsx(((inner: object) => element(inner)) as never, props as never) : element(props);
  };
  return String(runtime.jsx("main", { children: made(tree) } as never));
}

test("components write the HTML that the library writes", () => {
  fc.assert(
    fc.property(tree, (of) => {
      expect(written(ours, of)).toBe(written(hono, of));
    }),
    { seed: 5, numRuns: 2000 },
  );
});

test("words that look like tags are words", () => {
  expect(String(ours.jsx("p", { title: `"><i>`, children: ["<b>", { toString: () => "<u>" }] }))).toBe(
    `<p title="&quot;&gt;&lt;i&gt;">&lt;b&gt;&lt;u&gt;</p>`,
  );
});
