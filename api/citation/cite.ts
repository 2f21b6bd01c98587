import { bbcode } from "./bbcode.ts";
import { biblatex, bibtex } from "./bibtex.ts";
import { cslJson } from "./csl-json.ts";
import { html } from "./html.ts";
import { markdown } from "./markdown.ts";
import { plain } from "./plain.ts";
import type { Reference } from "./reference.ts";
import { ris } from "./ris.ts";

/** Every style a reference can be written in, with its media type. */
export const STYLES = {
  plain: { write: plain, type: "text/plain" },
  markdown: { write: markdown, type: "text/markdown" },
  bbcode: { write: bbcode, type: "text/plain" },
  html: { write: html, type: "text/html" },
  bibtex: { write: bibtex, type: "application/x-bibtex" },
  biblatex: { write: biblatex, type: "application/x-bibtex" },
  "csl-json": { write: cslJson, type: "application/vnd.citationstyles.csl+json" },
  ris: { write: ris, type: "application/x-research-info-systems" },
} as const satisfies Record<string, { write: (reference: Reference) => string; type: string }>;

export type Style = keyof typeof STYLES;
