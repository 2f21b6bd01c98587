import { createRequire } from "node:module";
import { parse as parseBbcode } from "@bbob/parser";
import * as commonmark from "commonmark";
import fc from "fast-check";
import { type DefaultTreeAdapterTypes, parseFragment } from "parse5";
import { describe, expect, test } from "vitest";
import { STYLES, type Style } from "../../../api/citation/cite.ts";
import { oneLine, type Reference } from "../../../api/citation/reference.ts";

// Citation.js, commonmark, parse5 and bbob read back what we write: none of it is ours.
const require = createRequire(import.meta.url);
const { Cite } = require("@citation-js/core");
for (const plugin of ["bibtex", "ris", "csl"]) require(`@citation-js/plugin-${plugin}`);

const SPECIAL = [
  String.raw`all of it: \ { } $ & # ^ _ ~ % " ' ${"`"} < > | - -- --- [ ] ( ) * + ! ? @ ; : , . / = «»`,
  "unbalanced {{{ braces and \\",
  "@misc{x, title = {y}}",
  "<script>alert(1)</script> &amp; &lt;b&gt; <i>x</i>",
  "[url=javascript:alert(1)]x[/url] [b]bold[/b] [x](y) ![z](w) **b** _i_ # h",
  "TY  - JOUR ER  - ",
  "Ω λ жук 漢字 é ñ ß İ ı 😀 µ m³ − ± – — … “q” ‘q’",
  "=HYPERLINK(1) ''two'' ``two`` ,, << >> ?` !`",
  "\\textbf{x} \\input{y} \\% $x^2$ 100% a_b",
  "1. one - two + three # four",
];

const reference = (title: string, author = "Kiln & Quay"): Reference => ({
  key: "motefall-trl-7K3M9QX2RV0-1-1.0.0-0.1-1.0",
  author,
  title,
  date: "2026-11-25",
  details: ["one trial: 95 % interval for this room and counter", `setting ${title}`],
  version: "revision 1, method 1.0.0",
  url: "https://motefall.example/pinned/trl-7K3M9QX2RV0/1/1.0.0/0.1-1.0?a=1&b=2_%5B",
  hash: "49b7cd8f7ff5",
});

interface Read {
  readonly title: string;
  readonly author: string;
  readonly year: string;
  readonly url: string;
  readonly version: string;
}

/** A comma in RIS parts a family name from a given one, whoever it is: that much of an author's name is lost. */
const parted = (name: string) =>
  name
    .split(/[\s,]*,[\s,]*/)
    .filter(Boolean)
    .join(", ");

function readBibliography(text: string, forceType: string): Read {
  const { data } = new Cite(text, { forceType });
  expect(data).toHaveLength(1);
  const [item] = data;
  const author = item.author[0];
  return {
    title: item.title,
    author: author.literal ?? [author.family, author.given, author.suffix].filter(Boolean).join(", "),
    year: String(item.issued["date-parts"][0][0]),
    url: item.URL,
    version: item.version ?? item.note.split("; ")[0], // BibTeX's own fields have no version: it begins the note
  };
}

/** Of a sentence with a link in it: the link's words are the title, the words about it hold the rest. */
function readSentence(words: string, link: { href: string; words: string }): Read {
  const at = words.indexOf(`. ${link.words}. `) + 2;
  const [before, after] = [words.slice(0, at), words.slice(at + link.words.length)];
  return {
    title: link.words,
    author: before.replace(/ \(\d{4}\)\. $/, ""),
    year: /\((\d{4})\)/.exec(before)![1]!,
    url: link.href,
    version: /revision 1, method 1\.0\.0/.exec(after)![0],
  };
}

function readMarkdown(text: string): Read {
  const walker = new commonmark.Parser().parse(text).walker();
  let words = "";
  const links: { href: string; words: string }[] = [];
  for (let step = walker.next(), inside = false; step; step = walker.next()) {
    const { node, entering } = step;
    expect(["document", "paragraph", "text", "link"]).toContain(node.type); // no emphasis, picture, HTML or code
    if (node.type === "link") {
      inside = entering;
      if (entering) links.push({ href: node.destination!, words: "" });
    }
    if (node.type !== "text") continue;
    words += node.literal;
    if (inside) links.at(-1)!.words += node.literal;
  }
  expect(links).toHaveLength(1);
  return readSentence(words, links[0]!);
}

type Node = DefaultTreeAdapterTypes.ChildNode;
function textOf(node: Node | DefaultTreeAdapterTypes.DocumentFragment): string {
  if ("value" in node) return node.value;
  return "childNodes" in node ? node.childNodes.map(textOf).join("") : "";
}

function readHtml(text: string): Read {
  const fragment = parseFragment(text);
  const elements = fragment.childNodes.filter((node) => "tagName" in node);
  expect(elements.map((element) => element.nodeName)).toEqual(["a"]);
  const [link] = elements as [Extract<Node, { tagName: string }>];
  expect(link.childNodes.map((node) => node.nodeName)).toEqual(["cite"]);
  return readSentence(textOf(fragment), { href: link.attrs[0]!.value, words: textOf(link) });
}

function readBbcode(text: string): Read {
  const tree = parseBbcode(text) as (string | { tag: string; attrs: Record<string, string>; content: string[] })[];
  const tags = tree.filter((node) => typeof node === "object");
  expect(tags.map(({ tag }) => tag)).toEqual(["url"]);
  const words = tags[0]!.content.join("");
  const all = tree.map((node) => (typeof node === "string" ? node : node.content.join(""))).join("");
  const read = readSentence(all, { href: Object.keys(tags[0]!.attrs)[0]!, words });
  return read;
}

const READERS: Record<Exclude<Style, "plain">, (text: string) => Read> = {
  markdown: readMarkdown,
  bbcode: readBbcode,
  html: readHtml,
  bibtex: (text) => readBibliography(text, "@bibtex/text"),
  biblatex: (text) => readBibliography(text, "@biblatex/text"),
  "csl-json": (text) => readBibliography(text, "@else/json"),
  ris: (text) => readBibliography(text, "@ris/file"),
};

function expectBack(style: keyof typeof READERS, cited: Reference): void {
  const { author, ...read } = READERS[style](STYLES[style].write(cited));
  // What a style cannot say: commas in RIS, square brackets in BBCode, which has no escape for them.
  const said = (words: string) => {
    if (style === "ris") return parted(words);
    return style === "bbcode" ? words.replaceAll("[", "(").replaceAll("]", ")") : words;
  };
  expect(style === "ris" ? parted(author) : author).toBe(said(cited.author));
  expect(read).toEqual({
    title: style === "bbcode" ? said(cited.title) : cited.title,
    year: "2026",
    url: cited.url,
    version: cited.version,
  });
}

describe.each(Object.keys(READERS) as (keyof typeof READERS)[])("%s, read back by another's parser", (style) => {
  test.each(SPECIAL)("%s", (title) => {
    expectBack(style, reference(oneLine(title)));
    expectBack(style, reference("a title", oneLine(title)));
  });

  test("any text there is", () => {
    const text = fc.string({ unit: "grapheme", minLength: 1, maxLength: 60 }).map((some) => oneLine(`x ${some} y`));
    fc.assert(
      fc.property(text, (title) => expectBack(style, reference(title))),
      { seed: 7, numRuns: 300 },
    );
  });
});

test("what turns the direction of text, or breaks a line, is taken out", () => {
  expect(oneLine("a\u202e880\u202c\r\nTY  - JOUR\u2028b\u200b\tc")).toBe("a 880 TY - JOUR b c");
});
