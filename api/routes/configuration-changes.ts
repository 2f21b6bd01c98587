import { z } from "@hono/zod-openapi";
import { findConfiguration } from "../../db/configurations.ts";
import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireOperator, requireOwner } from "../caller.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { mergeConfigurations } from "../merge-configurations.ts";
import { invalid } from "../problem.ts";
import { parseId } from "../public-id.ts";
import { reviseConfiguration } from "../revise-configuration.ts";
import { readSubmission } from "../submission.ts";
import { viewConfiguration } from "../view-configurations.ts";
import { ConfigurationIn } from "../wire/configuration.ts";
import { plainText } from "../wire/plain-text.ts";
import { OneConfiguration } from "./configurations.ts";

const Id = z.object({ id: z.string().openapi({ example: "cfg-7K3M9QX2RV0" }) });
const MergeIn = z.strictObject({ into: z.string().max(40), reason: plainText(1000) }).openapi("Merge");

/** Correcting the words of a configuration, and merging one into another. */
export function addConfigurationChanges(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/configurations/{id}/revisions",
      summary: "Correct or complete the words of a configuration; its parts stay as they are",
      security: [{ key: [] }],
      request: { params: Id, body: { content: { "application/json": { schema: ConfigurationIn } } } },
      responses: {
        200: { ...OneConfiguration, description: "These are its words already" },
        201: OneConfiguration,
        ...problems(400, 401, 403, 404, 409, 413, 415, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const id = configurationId(c);
      const actor = await requireOwner(c, (await findConfiguration(db.read, id)).submitter, "configuration");
      const { trial: configuration, sent } = readSubmission(await readBody(c.req.raw), ConfigurationIn);
      const changed = await reviseConfiguration(c.var.deps, { id, actor, configuration, sent });
      const view = await viewConfiguration(db.read, publicUrl, id);
      return answer(view, changed ? 201 : 200, { Location: `/v1/configurations/${id}` });
    },
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/configurations/{id}/merge",
      summary: "Operator: merge a configuration into another that is the same thing; the old id then answers 308",
      security: [{ key: [] }],
      request: { params: Id, body: { content: { "application/json": { schema: MergeIn } } } },
      responses: {
        200: { ...OneConfiguration, description: "The configuration that stands for both" },
        ...problems(400, 401, 403, 404, 409, 415, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const configuration = configurationId(c);
      await requireOperator(c, "merges configurations");
      const { into: text, reason } = readSubmission(await readBody(c.req.raw), MergeIn).trial;
      const into = targetId(text);
      await mergeConfigurations(c.var.deps, { configuration, into, actor: "operator", reason });
      const view = await viewConfiguration(db.read, publicUrl, into);
      return answer(view, 200, { Location: `/v1/configurations/${into}` });
    },
  );
}

function configurationId(c: Ctx): string {
  return parseId("configuration", c.req.param("id") ?? "");
}

function targetId(text: string): string {
  try {
    return parseId("configuration", text);
  } catch (error) {
    throw invalid(["into"], (error as Error).message);
  }
}
