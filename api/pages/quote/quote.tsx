import { STYLES, type Style } from "../../citation/cite.ts";
import type { Reference } from "../../citation/reference.ts";

interface Props {
  readonly reference: Reference;
  /** Path of the pinned result, which all styles are asked of. */
  readonly path: string;
}

/** Styles to paste into a post, and what each is for. */
const POSTED = { plain: "Plain text", markdown: "Markdown", bbcode: "BBCode", html: "HTML" } as const;
/** Styles for reference managers. */
const MANAGED = { bibtex: "BibTeX", biblatex: "BibLaTeX", "csl-json": "CSL-JSON", ris: "RIS" } as const;

/** The figure to quote, ready to copy whole, in every style. */
export function Quote({ reference, path }: Props) {
  return (
    <section class="quote unprinted">
      <h2 id="quote">To quote</h2>
      <Copied style="plain" reference={reference} />
      <details>
        <summary>For forums and web pages</summary>
        {(["markdown", "bbcode", "html"] as const).map((style) => (
          <Copied style={style} reference={reference} />
        ))}
      </details>
      <p>
        For reference managers:{" "}
        {Object.entries(MANAGED).map(([style, words], i) => (
          <>
            {i > 0 && ", "}
            <a href={`/v1/citation?${new URLSearchParams({ of: path, style })}`}>{words}</a>
          </>
        ))}
        . The address in it shows this very figure for good, and says when another one holds.
      </p>
    </section>
  );
}

function Copied({ style, reference }: { readonly style: Style & keyof typeof POSTED; readonly reference: Reference }) {
  const id = `quote-${style}`;
  const text = STYLES[style].write(reference);
  return (
    <div class="field copied">
      <label for={id} id={`${id}-label`}>
        {POSTED[style]}
      </label>
      <textarea id={id} readonly rows={4} spellcheck={false}>
        {text}
      </textarea>
      <button type="button" data-copies={id} aria-describedby={`${id}-label`} hidden>
        Copy
      </button>
    </div>
  );
}
