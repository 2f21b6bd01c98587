import { z } from "@hono/zod-openapi";
import { readQuery } from "../answer.ts";
import { STYLES, type Style } from "../citation/cite.ts";
import { referTo } from "../citation/cite-pin.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { currentPinOfEntry, currentPinOfTrial } from "../pins/current-pin.ts";
import { BASES, type Pin, parsePin } from "../pins/pin.ts";
import { parseId } from "../public-id.ts";

const style = z
  .enum(Object.keys(STYLES) as [Style, ...Style[]])
  .default("plain")
  .openapi({ description: "How it is written; other text is escaped as that style asks." });
const Id = (example: string) => z.object({ id: z.string().openapi({ example }) });
const OfTrial = z.object({ style, band: z.string().max(100).optional() });
const OfEntry = z.object({ style, basis: z.enum(BASES).default("all") });
const OfPin = z.object({
  style,
  of: z.string().max(200).openapi({ description: "The path of a pinned result: /pinned/…" }),
});
const Cited = {
  description: "The citation, of what the pinned address in it answers for good",
  content: Object.fromEntries(
    [...new Set(Object.values(STYLES).map(({ type }) => type))].map((type) => [type, { schema: z.string() }]),
  ),
};

/** Citations of trials, entries and pinned results, in every style. */
export function addCitations(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/trials/{id}/citation",
      summary: "How to cite a trial's newest result, in one band",
      request: { params: Id("trl-7K3M9QX2RV0"), query: OfTrial },
      responses: { 200: Cited, ...problems(404, 422) },
    },
    async (c) => {
      const { style: wanted, band } = readQuery(c, OfTrial);
      const id = parseId("trial", c.req.param("id") ?? "");
      return cited(c, await currentPinOfTrial(c.var.deps.db.read, id, band), wanted);
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/entries/{id}/citation",
      summary: "How to cite an entry's figure as it stands now",
      request: { params: Id("ent-7K3M9QX2RV0"), query: OfEntry },
      responses: { 200: Cited, ...problems(404, 422) },
    },
    async (c) => {
      const { style: wanted, basis } = readQuery(c, OfEntry);
      const id = parseId("entry", c.req.param("id") ?? "");
      return cited(c, await currentPinOfEntry(c.var.deps.db.read, id, basis), wanted);
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/citation",
      summary: "How to cite a pinned result",
      request: { query: OfPin },
      responses: { 200: Cited, ...problems(404, 422) },
    },
    async (c) => {
      const { style: wanted, of } = readQuery(c, OfPin);
      return cited(c, parsePin(of), wanted);
    },
  );
}

async function cited(c: Ctx, pin: Pin | null, wanted: Style): Promise<Response> {
  const { write, type, file } = { file: undefined, ...STYLES[wanted] };
  const reference = await referTo(c.var.deps, pin);
  const text = write(reference);
  return new Response(text.endsWith("\n") ? text : `${text}\n`, {
    headers: {
      "Content-Type": `${type}; charset=utf-8`,
      "X-Content-Type-Options": "nosniff",
      "Content-Disposition": file ? `attachment; filename="${reference.key}.${file}"` : "inline",
    },
  });
}
