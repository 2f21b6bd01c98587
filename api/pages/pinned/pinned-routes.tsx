import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { linksOfPin } from "../../pins/links-of-pin.ts";
import { parsePin } from "../../pins/pin.ts";
import { readPin } from "../../pins/read-pin.ts";
import { sincePinned } from "../../pins/since.ts";
import { htmlAnswer } from "../page.tsx";
import { quoteResult } from "../quote/quote-of.tsx";
import { readerOf } from "../reader.ts";
import { PinnedPage } from "./pinned-page.tsx";

/** `/pinned/…`: a result as it was quoted. What else answers below such a path is added before these, for its paths fit theirs. */
export function addPinnedPages(app: App): void {
  app.get("/pinned/:entry/:basis/:seq", showPinned);
  app.get("/pinned/:trial/:revision/:version/:band", showPinned);
}

async function showPinned(c: Ctx): Promise<Response> {
  const { db, publicUrl } = c.var.deps;
  const result = await readPin(db, publicUrl, parsePin(c.req.path));
  const quoted = await quoteResult(c.var.deps, result, result.pinned.path);
  const since = await sincePinned(db, publicUrl, result);
  const answer = await htmlAnswer(c, <PinnedPage reader={readerOf(c)} result={result} since={since} quoted={quoted} />);
  answer.headers.set("Link", await linksOfPin(db.read, publicUrl, result));
  return answer;
}
