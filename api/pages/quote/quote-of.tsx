import type { Child } from "hono/jsx";
import { referToResult } from "../../citation/cite-pin.ts";
import type { Dependencies } from "../../environment.ts";
import type { Pin } from "../../pins/pin.ts";
import { readPin } from "../../pins/read-pin.ts";
import type { PinnedResult } from "../../wire/pinned.ts";
import { DatasetData } from "./dataset-data.tsx";
import { LinkPreview } from "./link-preview.tsx";
import { Quote } from "./quote.tsx";

/** What a page that shows a figure has of its quotation: in its head for machines, and in the page to copy. */
export interface Quoted {
  readonly head: Child;
  readonly quote: Child;
}

/** The quotation of a pinned result on the page at `path`; nothing where there is no figure to quote. */
export async function quoteOf(deps: Dependencies, pin: Pin | null, path: string): Promise<Quoted> {
  if (pin === null) return { head: null, quote: null };
  return quoteResult(deps, await readPin(deps.db, deps.publicUrl, pin), path);
}

/** The same of a result that was read already. */
export async function quoteResult(
  { db, publicUrl }: Dependencies,
  result: PinnedResult,
  path: string,
): Promise<Quoted> {
  const reference = await referToResult(db, result);
  const pinned = result.pinned.path;
  return {
    head: (
      <>
        <LinkPreview reference={reference} page={`${publicUrl}${path}`} publicUrl={publicUrl} path={pinned} />
        <DatasetData result={result} reference={reference} />
      </>
    ),
    quote: <Quote reference={reference} path={pinned} />,
  };
}
