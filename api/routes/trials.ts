import { z } from "@hono/zod-openapi";
import { StoreError } from "../../db/store-error.ts";
import { findFile, findSeries, findTrial, listRuns } from "../../db/trials.ts";
import { afterwards } from "../afterwards.ts";
import { answer, readQuery } from "../answer.ts";
import { readBody } from "../body.ts";
import { requireOwner, requireSubmitter } from "../caller.ts";
import { changeState } from "../change-state.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { drawTrial } from "../pictures/find-card.ts";
import { invalid } from "../problem.ts";
import { parseId } from "../public-id.ts";
import { reprDigest } from "../repr-digest.ts";
import { unpackSeries } from "../series-blob.ts";
import { seriesCsv } from "../series-csv.ts";
import { storeTrial } from "../store-trial.ts";
import { readSubmission } from "../submission.ts";
import { viewTrial } from "../views.ts";
import { AnalysisOut } from "../wire/analysis.ts";
import { plainText } from "../wire/plain-text.ts";
import { Revision } from "../wire/revisions.ts";
import { TrialIn } from "../wire/trial.ts";

const OtherMethod = z.object({
  method_version: z.string(),
  at: z.string(),
  results: z.array(AnalysisOut.shape.results.element.pick({ band: true, cadr: true })),
});

const TrialOut = z
  .looseObject({
    id: z.string(),
    url: z.string(),
    state: z.enum(["listed", "pending", "questioned", "withdrawn"]),
    revisions: z.array(Revision),
    doubts: z.array(z.object({ code: z.string(), message: z.string(), other: z.string().optional() })).openapi({
      description:
        "What stated rules doubted when it was stored. While it is pending it waits for a person and does not count.",
    }),
    invented: z.boolean(),
    revision: z.int(),
    sha256: z.string(),
    created_at: z.string(),
    submitter: z.object({ id: z.string(), handle: z.string().nullable() }),
    configuration: z.object({ id: z.string(), title: z.string(), kind: z.string(), url: z.string() }),
    setting: z.string(),
    analysis: AnalysisOut,
    analysed_at: z.string(),
    other_methods: z.array(OtherMethod).openapi({
      description:
        "What other versions of the method say of the same readings, newest first. What changed: /method#version.",
    }),
  })
  .openapi("StoredTrial");

const Id = z.object({ id: z.string().openapi({ example: "trl-7K3M9QX2RV0" }) });
const IdAndRun = Id.extend({ n: z.string() });
const Nothing = z.object({});
const Reason = z.strictObject({ reason: plainText(1000) }).openapi("Reason");
export const Stored = {
  description: "The trial with its result",
  content: { "application/json": { schema: TrialOut } },
};

/** Storing, reading and withdrawing trials. */
export function addTrials(app: App): void {
  endpoint(
    app,
    {
      method: "post",
      path: "/v1/trials",
      summary: "Store a trial under its final id",
      security: [{ key: [] }],
      request: {
        headers: z.object({ "Idempotency-Key": z.string().max(200).optional() }),
        body: {
          content: {
            "application/json": { schema: TrialIn },
            "multipart/form-data": {
              schema: z.looseObject({
                trial: z.string().openapi({ description: "A Trial as JSON; its runs name the file parts." }),
              }),
            },
          },
        },
      },
      responses: {
        200: { ...Stored, description: "The same content was stored before: that trial" },
        201: Stored,
        ...problems(400, 401, 403, 409, 413, 415, 422),
      },
    },
    async (c) => {
      const submitter = await requireSubmitter(c);
      const idempotencyKey = c.req.header("Idempotency-Key") ?? null;
      if (idempotencyKey !== null && (idempotencyKey === "" || idempotencyKey.length > 200)) {
        throw invalid([], "An Idempotency-Key has 1 to 200 characters.");
      }
      const submission = readSubmission(await readBody(c.req.raw), TrialIn);
      const { id, stored } = await storeTrial(c.var.deps, submitter, submission, idempotencyKey);
      const trial = await viewTrial(c.var.deps.db, c.var.deps.publicUrl, id);
      if (stored) afterwards(c, () => drawTrial(c.var.deps, id));
      return answer(trial, stored ? 201 : 200, { Location: `/v1/trials/${id}` });
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/trials/{id}",
      summary: "A trial with its newest result and its history. Earlier revisions: /v1/trials/{id}/revisions",
      request: { params: Id, query: Nothing },
      responses: { 200: Stored, ...problems(404, 422) },
    },
    async (c) => {
      readQuery(c, Nothing); // a revision asked for here would be answered by the newest
      return answer(await viewTrial(c.var.deps.db, c.var.deps.publicUrl, trialId(c)));
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/trials/{id}/runs/{n}/series.csv",
      summary: "The parsed series of a run",
      request: { params: IdAndRun },
      responses: {
        200: { description: "Seconds and channels", content: { "text/csv": { schema: z.string() } } },
        ...problems(404),
      },
    },
    async (c) => {
      const { trial, run } = await findRunOf(c);
      const stored = await findSeries(c.var.deps.db.read, run.series);
      const text = seriesCsv(unpackSeries(stored));
      return new Response(text, {
        headers: {
          ...(await reprDigest(text)),
          "Cache-Control": "no-transform", // the digest is of these very bytes
          "Content-Type": "text/csv; charset=utf-8; header=present",
          "Content-Disposition": `attachment; filename="${trial.id}-run-${run.n}${trial.invented ? "-invented" : ""}.csv"`,
          "X-Content-Type-Options": "nosniff",
        },
      });
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/trials/{id}/runs/{n}/file",
      summary: "The exact bytes uploaded for a run",
      request: { params: IdAndRun },
      responses: {
        200: {
          description: "The file, always as a download",
          content: { "application/octet-stream": { schema: z.string() } },
        },
        ...problems(404),
      },
    },
    async (c) => {
      const { trial, run } = await findRunOf(c);
      if (!run.file) throw new StoreError("not-found", `Run ${run.n} was sent as columns: it has no file.`);
      const bytes = await findFile(c.var.deps.db, run.file);
      return new Response(bytes as Uint8Array<ArrayBuffer>, {
        headers: {
          ...(await reprDigest(bytes)),
          "Cache-Control": "no-transform",
          "Content-Type": "application/octet-stream",
          "Content-Disposition": `attachment; filename="${trial.id}-run-${run.n}${trial.invented ? "-invented" : ""}.bin"`,
          "X-Content-Type-Options": "nosniff",
        },
      });
    },
  );

  endpoint(
    app,
    {
      method: "post",
      path: "/v1/trials/{id}/withdrawal",
      summary: "Withdraw a trial: its submitter, or the operator. It stays readable, and counts no more",
      security: [{ key: [] }],
      request: { params: Id, body: { content: { "application/json": { schema: Reason } } } },
      responses: { 200: Stored, ...problems(400, 401, 403, 404, 415, 422) },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const id = trialId(c);
      const actor = await requireOwner(c, (await findTrial(db.read, id)).submitter, "trial");
      const { reason } = readSubmission(await readBody(c.req.raw), Reason).trial;
      await changeState(c.var.deps, id, "withdrawn", actor, reason);
      return answer(await viewTrial(db, publicUrl, id));
    },
  );
}

function trialId(c: Ctx): string {
  return parseId("trial", c.req.param("id") ?? "");
}

async function findRunOf(c: Ctx) {
  const trial = await findTrial(c.var.deps.db.read, trialId(c));
  const n = c.req.param("n");
  const run = (await listRuns(c.var.deps.db.read, trial.id, trial.revision)).find((each) => String(each.n) === n);
  if (!run) throw new StoreError("not-found", `Trial ${trial.id} has no run ${JSON.stringify(n)}.`);
  return { trial, run };
}
