import { z } from "@hono/zod-openapi";
import { findConfiguration, listConfigurations } from "../../db/configurations.ts";
import { insertConfiguration } from "../../db/insert-configuration.ts";
import { answer, readQuery } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireSubmitter } from "../caller.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { parseId } from "../public-id.ts";
import { resolveConfiguration } from "../resolve-configuration.ts";
import { findSimilarTo, SimilarOut } from "../similar-configurations.ts";
import { retrying } from "../store-trial.ts";
import { readSubmission } from "../submission.ts";
import { ConfigurationEntryOut } from "../view-configuration-entries.ts";
import { viewConfigurationWhole } from "../view-configuration-whole.ts";
import { viewConfiguration, viewConfigurations } from "../view-configurations.ts";
import { ConfigurationIn } from "../wire/configuration.ts";
import { isPlain, NOT_PLAIN } from "../wire/plain-text.ts";

const ConfigurationOut = z
  .looseObject({
    id: z.string(),
    url: z.string(),
    title: z.string(),
    kind: z.enum(["user_built", "commercial"]),
    similar: z.array(SimilarOut),
    derivation: z
      .object({ id: z.string(), url: z.string(), title: z.string(), differs: z.array(z.string()) })
      .nullable()
      .optional()
      .openapi({ description: "The configuration it derives from and what differs, in words; not in lists." }),
  })
  .openapi("StoredConfiguration");
const Whole = ConfigurationOut.extend({
  entries: z.array(ConfigurationEntryOut),
  trials: z.array(z.looseObject({ id: z.string(), url: z.string(), state: z.string() })),
  submitter: z.object({ id: z.string(), handle: z.string().nullable() }),
  revised_at: z.array(z.string()).openapi({ description: "When its words were revised." }),
  merged_from: z.array(z.object({ id: z.string(), at: z.string(), reason: z.string() })),
}).openapi("ConfigurationWithEntries");
export const OneConfiguration = {
  description: "The configuration",
  content: { "application/json": { schema: ConfigurationOut } },
};
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
        200: { ...OneConfiguration, description: "The same parts were stored before: that configuration" },
        201: OneConfiguration,
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
      return answer(await viewConfiguration(db.read, publicUrl, id), created ? 201 : 200, {
        Location: `/v1/configurations/${id}`,
      });
    },
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/configurations/similar",
      summary: "Stored configurations that resemble one as it is described; nothing is stored",
      request: { body: { content: { "application/json": { schema: ConfigurationIn } } } },
      responses: {
        200: {
          description: "Up to five of its kind, the most alike first; one with the same parts differs in nothing",
          content: { "application/json": { schema: z.object({ similar: z.array(SimilarOut) }) } },
        },
        ...problems(400, 413, 415, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const { trial: described } = readSubmission(await readBody(c.req.raw), ConfigurationIn);
      return answer({ similar: await findSimilarTo(db.read, publicUrl, described) });
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
      const configurations = await viewConfigurations(db.read, publicUrl, found);
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
      responses: {
        200: { ...OneConfiguration, content: { "application/json": { schema: Whole } } },
        308: { description: "Merged into another: its Location" },
        ...problems(404),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const stored = await findConfiguration(db.read, parseId("configuration", c.req.param("id") ?? ""));
      if (stored.mergedInto !== null) return c.redirect(`/v1/configurations/${stored.mergedInto}`, 308);
      return answer(await viewConfigurationWhole(db, publicUrl, stored));
    },
  );
}
