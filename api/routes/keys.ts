import { z } from "@hono/zod-openapi";
import { StoreError } from "../../db/store-error.ts";
import { findKey, revokeKey } from "../../db/submitters.ts";
import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireOwner } from "../caller.ts";
import { createKey } from "../create-key.ts";
import { fold } from "../crockford.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { readSubmission } from "../submission.ts";
import { plainText } from "../wire/plain-text.ts";

export const KeyIn = z.strictObject({ handle: plainText(60).optional() }).openapi("KeyRequest");

const KeyOut = z
  .object({
    key: z.string(),
    prefix: z.string(),
    submitter: z.object({ id: z.string(), handle: z.string().nullable() }),
    keep: z.string(),
  })
  .openapi("Key");

export const KEEP =
  "This key is shown once. There is no e-mail and no recovery: whoever loses it can no longer amend or withdraw their trials, but the trials stay.";

/** `POST /v1/keys` and `DELETE /v1/keys/{prefix}`. */
export function addKeys(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/keys",
      summary: "Make a submitter key, shown once",
      request: { body: { content: { "application/json": { schema: KeyIn } } } },
      responses: {
        201: { description: "The key", content: { "application/json": { schema: KeyOut } } },
        ...problems(400, 413, 415, 422),
      },
    },
    async (c) => {
      // curl -X POST sends neither type nor length, curl -d '' a type without a content: nothing is asked.
      const empty = c.req.header("Content-Type") === undefined || c.req.header("Content-Length") === "0";
      const asked = empty ? {} : readSubmission(await readBody(c.req.raw), KeyIn).trial;
      const { text, prefix, submitter } = await createKey(c.var.deps, asked.handle ?? null);
      return answer({ key: text, prefix, submitter, keep: KEEP }, 201, { "Cache-Control": "no-store" });
    },
  );

  endpoint(
    app,
    {
      method: "delete",
      path: "/v1/keys/{prefix}",
      summary: "Revoke a key for good: its holder, or the operator",
      security: [{ key: [] }],
      request: { params: z.object({ prefix: z.string() }) },
      responses: { 204: { description: "Revoked" }, ...problems(401, 403, 404) },
    },
    async (c) => {
      const prefix = fold(c.req.param("prefix") ?? "");
      const holder = await findKey(c.var.deps.db, prefix);
      if (!holder) throw new StoreError("not-found", "No key has this prefix.");
      await requireOwner(c, holder.submitter, "key");
      await revokeKey(c.var.deps.db, prefix, c.var.deps.now().toISOString());
      return c.body(null, 204);
    },
  );
}
