import { noteOf, PUBLISHER, type Reference } from "./reference.ts";

/** An entry for BibTeX, which knows no data sets, no dates by the day and no versions. */
export function bibtex(reference: Reference): string {
  return entry("misc", reference, [
    ["year", reference.date.slice(0, 4)],
    ["month", MONTHS[Number(reference.date.slice(5, 7)) - 1]!],
    ["howpublished", literal(PUBLISHER)],
    ["note", literal(`${reference.version}; ${noteOf(reference)}`)],
  ]);
}

/** The same for BibLaTeX. */
export function biblatex(reference: Reference): string {
  return entry("dataset", reference, [
    ["date", `{${reference.date}}`],
    ["publisher", literal(PUBLISHER)],
    ["version", literal(reference.version)],
    ["note", literal(noteOf(reference))],
  ]);
}

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

function entry(type: string, reference: Reference, more: readonly (readonly [string, string])[]): string {
  const fields = [
    ["author", literal(reference.author)],
    ["title", literal(reference.title)],
    ...more,
    ["url", `{${reference.url}}`],
  ];
  return `@${type}{${reference.key},\n${fields.map(([name, value]) => `  ${name} = ${value}`).join(",\n")}\n}`;
}

/** Two pairs of braces: one delimits, the other keeps letters' case and an author's name in one piece. */
function literal(text: string): string {
  return `{{${text.replace(/[\\{}$&#^_~%"`<>|]|-(?=-)|'(?=')|,(?=,)/g, (sign) => COMMANDS[sign] ?? `\\${sign}`)}}}`;
}

/** Braces are counted even behind a backslash, and two hyphens, quotes or commas join into another sign. */
const COMMANDS: Record<string, string> = {
  "\\": "\\textbackslash{}",
  "{": "\\textbraceleft{}",
  "}": "\\textbraceright{}",
  "~": "\\textasciitilde{}",
  "^": "\\textasciicircum{}",
  "<": "\\textless{}",
  ">": "\\textgreater{}",
  "|": "\\textbar{}",
  '"': "\\textquotedbl{}",
  "'": "'{}",
  ",": ",{}",
  "`": "\\textasciigrave{}",
  "-": "-{}",
};
