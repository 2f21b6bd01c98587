import { z } from "@hono/zod-openapi";
import { canonicalJson } from "../../db/content-hash.ts";
import { entityTag, notModified } from "../conditional.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { linksOfPin } from "../pins/links-of-pin.ts";
import { parsePin } from "../pins/pin.ts";
import { readPin } from "../pins/read-pin.ts";
import { reprDigest } from "../repr-digest.ts";
import { PinnedResult } from "../wire/pinned.ts";

const responses = {
  200: {
    description:
      "Canonical JSON (RFC 8785); `pinned` never changes. Link names the current record as latest-version and a trial's revisions, which may have corrected who paid, as version-history (RFC 5829), Repr-Digest the SHA-256 of the answer (RFC 9530)",
    content: { "application/json": { schema: PinnedResult } },
  },
  304: { description: "The answer is the one whose ETag came in If-None-Match" },
  ...problems(404),
};

/**
 * Results that keep their numbers, by their paths. Whatever else answers below such a path is added before these, for its
 * paths fit theirs.
 */
export function addPinned(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/pinned/{entry}/{basis}/{seq}",
      summary: "The figure of an entry as one event left it: its numbers never change",
      request: { params: z.object({ entry: z.string(), basis: z.string(), seq: z.string() }) },
      responses,
    },
    answerPinned,
  );
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/pinned/{trial}/{revision}/{method_version}/{band}",
      summary: "One band of a trial's revision as one method version has it: its numbers never change",
      request: {
        params: z.object({
          trial: z.string(),
          revision: z.string(),
          method_version: z.string().openapi({ example: "1.0.0" }),
          band: z.string().openapi({ example: "0.1-1.0", description: "A channel's name is percent-encoded." }),
        }),
      },
      responses,
    },
    answerPinned,
  );
}

/** A withdrawal is for good: after it nothing changes any more. Before it a copy may be kept for an hour. */
const FOR_GOOD = "public, max-age=31536000, immutable, no-transform";
const FOR_AN_HOUR = "public, max-age=3600, no-transform";

async function answerPinned(c: Ctx): Promise<Response> {
  const { db, publicUrl } = c.var.deps;
  const result = await readPin(db, publicUrl, parsePin(c.req.path));
  const { corrections: _, ...kept } = result;
  const text = canonicalJson(kept);
  const tag = await entityTag(text);
  const headers = {
    "Cache-Control": result.withdrawn ? FOR_GOOD : FOR_AN_HOUR,
    Link: await linksOfPin(db.read, publicUrl, result),
  };
  return (
    notModified(c, tag, headers) ??
    new Response(text, {
      headers: {
        ...headers,
        ETag: tag,
        ...(await reprDigest(text)),
        "Content-Type": "application/json; charset=utf-8",
      },
    })
  );
}
