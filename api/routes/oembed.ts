import { z } from "@hono/zod-openapi";
import { StoreError } from "../../db/store-error.ts";
import { answer, readQuery } from "../answer.ts";
import { referToResult } from "../citation/cite-pin.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { CARD } from "../pictures/card.ts";
import { currentPinOfEntry, currentPinOfTrial } from "../pins/current-pin.ts";
import { type Pin, parsePin } from "../pins/pin.ts";
import { readPin } from "../pins/read-pin.ts";
import { RequestError } from "../problem.ts";
import { parseId } from "../public-id.ts";

const Query = z.object({
  url: z.string().max(500).openapi({ description: "The address of a trial, an entry or a pinned result here." }),
  format: z.string().max(20).default("json"),
  maxwidth: z.coerce.number().positive().optional(),
  maxheight: z.coerce.number().positive().optional(),
});

/** The members of an oEmbed 1.0 answer of type link. */
const OEmbed = z
  .object({
    version: z.literal("1.0"),
    type: z.literal("link"),
    title: z.string(),
    author_name: z.string(),
    provider_name: z.literal("Motefall"),
    provider_url: z.string(),
    cache_age: z.int(),
    thumbnail_url: z.string(),
    thumbnail_width: z.int(),
    thumbnail_height: z.int(),
  })
  .partial({ thumbnail_url: true, thumbnail_width: true, thumbnail_height: true })
  .openapi("OEmbed");

/** `GET /oembed`: what a page that embeds a link shows of it (oEmbed 1.0, type link, JSON alone). */
export function addOEmbed(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/oembed",
      summary: "What a page that embeds a link to a result shows of it (oEmbed 1.0)",
      request: { query: Query },
      responses: {
        200: { description: "A link with a thumbnail", content: { "application/json": { schema: OEmbed } } },
        ...problems(404, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const { url, format, maxwidth, maxheight } = readQuery(c, Query);
      if (format !== "json")
        throw new RequestError("not-implemented", "oEmbed is answered in JSON alone: format=json.");
      const pin = await pinAt(c, url);
      const result = pin && (await readPin(db, publicUrl, pin));
      if (!result) throw new StoreError("not-found", "No figure stands at this address.");
      const { title, author } = await referToResult(db, result);
      const fits = (maxwidth ?? CARD.width) >= CARD.width && (maxheight ?? CARD.height) >= CARD.height;
      const body: z.infer<typeof OEmbed> = {
        version: "1.0",
        type: "link",
        title,
        author_name: author,
        provider_name: "Motefall",
        provider_url: publicUrl,
        cache_age: 86_400,
        ...(fits
          ? { thumbnail_url: `${result.page}/card.png`, thumbnail_width: CARD.width, thumbnail_height: CARD.height }
          : {}),
      };
      return answer(body);
    },
  );
}

/** The figure that an address of this registry stands for. */
async function pinAt(c: Ctx, url: string): Promise<Pin | null> {
  const { db, publicUrl } = c.var.deps;
  const path = url.startsWith(`${publicUrl}/`) ? url.slice(publicUrl.length).split(/[?#]/, 1)[0]! : "";
  if (path.startsWith("/pinned/")) return parsePin(path);
  const [, kind, id] = /^\/(trials|entries)\/([^/]+)$/.exec(path) ?? [];
  if (kind === "trials") return currentPinOfTrial(db.read, parseId("trial", id!));
  if (kind === "entries") return currentPinOfEntry(db.read, parseId("entry", id!));
  throw new StoreError("not-found", `oEmbed knows trials, entries and pinned results at ${publicUrl}.`);
}
