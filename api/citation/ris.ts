import { noteOf, PUBLISHER, type Reference } from "./reference.ts";

/** One record of RIS: a line a field, ended by CR LF. */
export function ris(reference: Reference): string {
  const lines = [
    ["TY", "DATA"],
    ["ID", reference.key],
    ["AU", reference.author],
    ["TI", reference.title],
    ["PY", reference.date.slice(0, 4)],
    ["DA", `${reference.date.replaceAll("-", "/")}/`],
    ["PB", PUBLISHER],
    ["ET", reference.version],
    ["UR", reference.url],
    ["N1", noteOf(reference)],
    ["ER", ""],
  ];
  return lines.map(([tag, text]) => `${tag}  - ${text}\r\n`).join("");
}
