import { z } from "@hono/zod-openapi";
import { findConfiguration, listConfigurations, listSettings } from "../../db/configurations.ts";
import { listDescribedEntries } from "../../db/entries.ts";
import { insertConfiguration } from "../../db/insert-configuration.ts";
import { listTrialsOf } from "../../db/trials.ts";
import { answer, readQuery } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireSubmitter } from "../caller.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { parseId } from "../public-id.ts";
import { resolveConfiguration } from "../resolve-configuration.ts";
import { retrying } from "../store-trial.ts";
import { readSubmission } from "../submission.ts";
import { viewConfiguration } from "../views.ts";
import { ConfigurationIn } from "../wire/configuration.ts";
import { isPlain, NOT_PLAIN } from "../wire/plain-text.ts";

const ConfigurationOut = z
  .looseObject({
    id: z.string(),
    url: z.string(),
    title: z.string(),
    kind: z.enum(["user_built", "commercial"]),
    similar: z.null(),
  })
  .openapi("StoredConfiguration");
const One = { description: "The configuration", content: { "application/json": { schema: ConfigurationOut } } };
const Query = z.object({
  q: z.string().max(100).refine(isPlain, NOT_PLAIN).default(""),
  limit: z.coerce.number().int().min(1).max(200).default(50),
});

/** Creating, searching and reading configurations. */
export function addConfigurations(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/configurations",
      summary: "Create a configuration, or find the one with the same parts",
      security: [{ key: [] }],
      request: { body: { content: { "application/json": { schema: ConfigurationIn } } } },
      responses: {
        200: { ...One, description: "The same parts were stored before: that configuration" },
        201: One,
        ...problems(400, 401, 403, 413, 415, 422),
      },
    },
    async (c) => {
      const { db, now, random, publicUrl } = c.var.deps;
      const submitter = await requireSubmitter(c);
      const { trial: configuration, sent } = readSubmission(await readBody(c.req.raw), ConfigurationIn);
      const at = now().toISOString();
      const { id, created } = await retrying(() =>
        db.write(async (connection) => {
          const resolved = await resolveConfiguration(
            { connection, submitter, at, random, path: [] },
            configuration,
            sent,
          );
          await insertConfiguration(connection, { ...resolved, submitter, at });
          return resolved;
        }),
      );
      const view = viewConfiguration(publicUrl, await findConfiguration(db.read, id), await listSettings(db.read, id));
      return answer(view, created ? 201 : 200, { Location: `/v1/configurations/${id}` });
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/configurations",
      summary: "Search configurations by words of their title",
      request: { query: Query },
      responses: {
        200: {
          description: "Configurations, newest first",
          content: { "application/json": { schema: z.object({ configurations: z.array(ConfigurationOut) }) } },
        },
        ...problems(422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const { q, limit } = readQuery(c, Query);
      const found = await listConfigurations(db, q.trim(), limit);
      const configurations = await Promise.all(
        found.map(async (stored) => viewConfiguration(publicUrl, stored, await listSettings(db.read, stored.id))),
      );
      return answer({ configurations });
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/configurations/{id}",
      summary: "A configuration with its settings, trials and entries",
      request: { params: z.object({ id: z.string() }) },
      responses: { 200: One, 308: { description: "Merged into another: its Location" }, ...problems(404) },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const stored = await findConfiguration(db.read, parseId("configuration", c.req.param("id") ?? ""));
      if (stored.mergedInto !== null) return c.redirect(`/v1/configurations/${stored.mergedInto}`, 308);
      const [settings, entries, trials] = await Promise.all([
        listSettings(db.read, stored.id),
        listDescribedEntries(db, { configuration: stored.id }),
        listTrialsOf(db, { configuration: stored.id }),
      ]);
      return answer({
        ...viewConfiguration(publicUrl, stored, settings),
        entries: entries.map(({ id, band, setting, invented }) => ({
          id,
          url: `${publicUrl}/v1/entries/${id}`,
          band,
          setting,
          invented,
        })),
        trials: trials.map((trial) => ({ ...trial, url: `${publicUrl}/v1/trials/${trial.id}` })),
      });
    },
  );
}
