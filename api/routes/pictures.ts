import { z } from "@hono/zod-openapi";
import { StoreError } from "../../db/store-error.ts";
import { readPageQuery } from "../answer.ts";
import { entityTag, notModified } from "../conditional.ts";
import type { App } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { badge } from "../pictures/badge.ts";
import { card } from "../pictures/card.ts";
import { decayPicture } from "../pictures/decay-picture.tsx";
import { findCard } from "../pictures/find-card.ts";
import { roomsPicture } from "../pictures/rooms-picture.tsx";
import { THEMES } from "../pictures/themes.ts";
import { currentPinOfEntry } from "../pins/current-pin.ts";
import { parsePin } from "../pins/pin.ts";
import { readPin } from "../pins/read-pin.ts";
import { parseId } from "../public-id.ts";
import type { PinnedResult } from "../wire/pinned.ts";

const Asked = z.object({ theme: z.enum(["light", "dark"]).default("light").catch("light") });
/** A day: what is withdrawn must be seen to be. */
const A_DAY = "public, max-age=86400";

/** Pictures of pinned results for posts: a card as SVG and PNG, a badge, and the plot; an entry's badge shows what stands now. */
export function addPictures(app: App): void {
  for (const path of ["/pinned/:entry/:basis/:seq", "/pinned/:trial/:revision/:version/:band"]) {
    app.get(`${path}/card.svg`, async (c) => {
      const result = await pinnedOf(c);
      return svg(c, card(result, THEMES[themeOf(c)]));
    });
    app.get(`${path}/badge.svg`, async (c) => {
      const result = await pinnedOf(c);
      return svg(c, badge(result, THEMES[themeOf(c)]));
    });
    app.get(`${path}/card.png`, async (c) => {
      const result = await pinnedOf(c);
      const png = await findCard(c.var.deps, result, themeOf(c));
      return new Response(png as Uint8Array<ArrayBuffer>, {
        headers: { "Content-Type": "image/png", "Cache-Control": A_DAY },
      });
    });
  }
  app.get("/pinned/:trial/:revision/:version/:band/decay.svg", async (c) => {
    const result = await pinnedOf(c);
    if (result.pinned.kind !== "trial") throw new StoreError("not-found", "Decays are drawn of tests.");
    return svg(c, await decayPicture(c.var.deps.db.read, result, result.pinned, THEMES[themeOf(c)]));
  });
  app.get("/pinned/:entry/:basis/:seq/rooms.svg", async (c) => {
    const result = await pinnedOf(c);
    if (result.pinned.kind !== "entry") throw new StoreError("not-found", "Rooms are drawn of pooled figures.");
    return svg(c, await roomsPicture(c.var.deps.db.read, result, result.pinned, THEMES[themeOf(c)]));
  });
  app.get("/entries/:id/badge.svg", async (c) => {
    const pin = await currentPinOfEntry(c.var.deps.db.read, parseId("entry", c.req.param("id")));
    if (pin === null) throw new StoreError("not-found", "No test of it counts, so there is no figure.");
    const result = await readPin(c.var.deps.db, c.var.deps.publicUrl, pin);
    return svg(c, badge(result, THEMES[themeOf(c)]), "no-cache");
  });
}

async function pinnedOf(c: Ctx): Promise<PinnedResult> {
  const { db, publicUrl } = c.var.deps;
  const path = new URL(c.req.url).pathname.replace(/\/[^/]+$/, "");
  return readPin(db, publicUrl, parsePin(path));
}

function themeOf(c: Ctx) {
  return readPageQuery(c, Asked).theme;
}

async function svg(c: Ctx, text: string, caching = A_DAY): Promise<Response> {
  const tag = await entityTag(text);
  const headers = { "Cache-Control": caching };
  return (
    notModified(c, tag, headers) ??
    new Response(text, { headers: { ...headers, ETag: tag, "Content-Type": "image/svg+xml; charset=utf-8" } })
  );
}
