import { bbcode } from "./bbcode.ts";
import { biblatex, bibtex } from "./bibtex.ts";
import { cslJson } from "./csl-json.ts";
import { html } from "./html.ts";
import { markdown } from "./markdown.ts";
import { plain } from "./plain.ts";
import type { Reference } from "./reference.ts";
import { ris } from "./ris.ts";

/** Every style a reference can be written in, with its media type, and how its file ends where a reference manager opens it. */
export const STYLES = {
  plain: { write: plain, type: "text/plain" },
  markdown: { write: markdown, type: "text/markdown" },
  bbcode: { write: bbcode, type: "text/plain" },
  html: { write: html, type: "text/html" },
  bibtex: { write: bibtex, type: "application/x-bibtex", file: "bib" },
  biblatex: { write: biblatex, type: "application/x-bibtex", file: "bib" },
  "csl-json": { write: cslJson, type: "application/vnd.citationstyles.csl+json", file: "json" },
  ris: { write: ris, type: "application/x-research-info-systems", file: "ris" },
} as const satisfies Record<string, Written>;

export type Style = keyof typeof STYLES;

interface Written {
  readonly write: (reference: Reference) => string;
  readonly type: string;
  readonly file?: string;
}
