import { z } from "@hono/zod-openapi";
import { StoreError } from "../../db/store-error.ts";
import { answer } from "../answer.ts";
import { notModified } from "../conditional.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { reprDigestOf } from "../repr-digest.ts";

const DumpOut = z
  .object({
    name: z.string(),
    as_of: z.string().nullable(),
    as_of_seq: z.int().openapi({ description: "The last line of the log in it" }),
    method_version: z.string(),
    licence: z.literal("CC0-1.0"),
    files: z.array(z.object({ name: z.string(), url: z.string(), bytes: z.int(), sha256: z.string() })),
  })
  .openapi("Dump");
const Dumps = z.object({ dumps: z.array(DumpOut) }).openapi("Dumps");
const File = z.object({ dump: z.string(), file: z.string() });

/** Open data: everything that is stored, but for keys. */
export function addDumps(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/dumps",
      summary: "Open data: all that is stored as files, each whole as of one moment, newest first",
      responses: { 200: { description: "The dumps there are", content: { "application/json": { schema: Dumps } } } },
    },
    async (c) => {
      const { dumps, publicUrl } = c.var.deps;
      const all = await dumps.list();
      const body: z.infer<typeof Dumps> = {
        dumps: all.map(({ files, ...dump }) => ({
          ...dump,
          licence: "CC0-1.0",
          files: files.map((file) => ({
            ...file,
            url: dumps.addressOf(dump.name, file.name) ?? `${publicUrl}/v1/dumps/${dump.name}/${file.name}`,
          })),
        })),
      };
      return answer(body);
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/dumps/{dump}/{file}",
      summary: "A file of a dump",
      request: { params: File },
      responses: {
        200: { description: "Its bytes", content: { "application/octet-stream": { schema: z.string() } } },
        ...problems(404),
      },
    },
    async (c) => {
      const { dumps } = c.var.deps;
      const [dump, name] = [c.req.param("dump") ?? "", c.req.param("file") ?? ""];
      const found = (await dumps.list()).find((one) => one.name === dump)?.files.find((one) => one.name === name);
      // What is erased must go from caches too: a dump made again at the same line of the log has the same name.
      const headers = { "Cache-Control": "public, no-cache, no-transform" };
      const tag = found ? `W/"${found.sha256}"` : "";
      const unchanged = found ? notModified(c, tag, headers) : null;
      if (unchanged) return unchanged;
      const bytes = found && (await dumps.open(dump, name));
      if (!found || !bytes)
        throw new StoreError("not-found", "No dump has a file of this name: GET /v1/dumps lists them.");
      return new Response(bytes, {
        headers: {
          ...headers,
          ETag: tag,
          "Content-Type": "application/octet-stream",
          "Content-Length": String(found.bytes),
          "Content-Disposition": `attachment; filename="motefall-${dump}-${name}"`,
          "Repr-Digest": reprDigestOf(found.sha256),
          "X-Content-Type-Options": "nosniff",
        },
      });
    },
  );
}
