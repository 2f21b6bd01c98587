import { z } from "@hono/zod-openapi";
import { findTrial } from "../../db/trials.ts";
import { amendTrial } from "../amend-trial.ts";
import { answer } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireOwner } from "../caller.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { RequestError } from "../problem.ts";
import { parseId } from "../public-id.ts";
import { readSubmission } from "../submission.ts";
import { viewRevisions } from "../view-revisions.ts";
import { viewTrial } from "../views.ts";
import { AmendmentIn } from "../wire/amendment.ts";
import { Revision } from "../wire/revisions.ts";
import { Stored } from "./trials.ts";

const Id = z.object({ id: z.string().openapi({ example: "trl-7K3M9QX2RV0" }) });

const RevisionsOut = z.object({ trial: z.string(), revisions: z.array(Revision) }).openapi("Revisions");

/** `POST /v1/trials/{id}/revisions`: what was said of a test is put right; its readings stay; `GET` lists what it said before. */
export function addAmendments(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/trials/{id}/revisions",
      summary: "Every revision of a trial: what it changed, why, and where its results stand for good",
      request: { params: Id },
      responses: {
        200: { description: "First to newest", content: { "application/json": { schema: RevisionsOut } } },
        ...problems(404),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const { id } = await findTrial(db.read, parseId("trial", c.req.param("id") ?? ""));
      return answer({ trial: id, revisions: await viewRevisions(db.read, publicUrl, id) });
    },
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/trials/{id}/revisions",
      summary: "Amend a trial: conditions, who paid, marks and windows. The earlier revision stays with its result",
      security: [{ key: [] }],
      request: { params: Id, body: { content: { "application/json": { schema: AmendmentIn } } } },
      responses: {
        200: { ...Stored, description: "It says this already" },
        201: Stored,
        ...problems(400, 401, 403, 404, 409, 413, 415, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const id = parseId("trial", c.req.param("id") ?? "");
      const { submitter } = await findTrial(db.read, id);
      const actor = await requireOwner(c, submitter, "trial");
      if (actor === "operator") throw new RequestError("forbidden", "What a test was is its submitter's to say.");
      const { trial: amendment, sent } = readSubmission(await readBody(c.req.raw), AmendmentIn);
      const changed = await amendTrial(c.var.deps, { id, actor, amendment, sent });
      return answer(await viewTrial(db, publicUrl, id), changed ? 201 : 200, { Location: `/v1/trials/${id}` });
    },
  );
}
