import { z } from "@hono/zod-openapi";
import { StoreError } from "../../../db/store-error.ts";
import { readPageQuery } from "../../answer.ts";
import { readBody } from "../../body.ts";
import { createKey } from "../../create-key.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { ERRORS, RequestError } from "../../problem.ts";
import { KeyIn } from "../../routes/keys.ts";
import { isFromElsewhere } from "../from-elsewhere.ts";
import { readerOf } from "../reader.ts";
import { publishedAt } from "../trial/published-at.ts";
import { type ConfigurationChoice, choicesLike, findStored } from "./choices.ts";
import { Complaints } from "./complaints.ts";
import { describeStored } from "./describe-stored.ts";
import { chosenConfiguration, partRowsShown } from "./form-configuration.ts";
import { ACTIONS, type Action, chosenValue, DESCRIBED, type FieldName, MOST_PARTS, type Slot } from "./form-fields.ts";
import { type FieldComplaint, FormReader } from "./form-reader.ts";
import { forgetReplaced, logsOfForm } from "./kept-log.ts";
import { previewOfForm } from "./preview-of-form.ts";
import { publish } from "./publish.ts";
import { restOfForm } from "./rest-of-form.ts";
import { showForm } from "./show-form.tsx";
import { type FormLog, trialFromForm } from "./trial-from-form.ts";
import { wantingForPublication } from "./wanting.ts";

/** `GET` and `POST /submit`. */
export function addSubmitPage(app: App): void {
  app.get("/submit", async (c) => {
    const { configuration, setting } = readPageQuery(c, Start);
    const fields = new Map<string, string>(Object.entries(PRICED));
    fields.set("described.cost_date", c.var.deps.now().toISOString().slice(0, 10));
    // Whoever reads in cfm has a tape in feet.
    if (readerOf(c).flow !== "m3/h") {
      for (const [name, unit] of Object.entries(IMPERIAL)) fields.set(name, unit);
    }
    if (configuration !== undefined) fields.set("configuration", chosenValue(configuration, setting ?? ""));
    return showForm(c, fields, {});
  });

  // Nobody is signed in and no cookie opens anything: a key travels in the form itself, so that no other site can post in
  // somebody's name. It could only bring somebody here with a form that holds its own key: what is published then is its.
  app.post("/submit", async (c) => {
    if (isFromElsewhere(c)) return showForm(c, new Map(), { problems: [ELSEWHERE], status: 403 });
    let form: Form;
    try {
      form = await readForm(c);
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      const { status } = ERRORS[error.code];
      if (error.code !== "too-large") return showForm(c, new Map(), { problems: [error.message], status });
      return showForm(c, shortenedAll(await restOfForm(c.req.raw)), { problems: [TOO_LARGE], status });
    }
    return answerForm(c, form);
  });
}

const ELSEWHERE = "This form was filled in by another site, so nothing of it was taken.";
const TOO_LARGE =
  "Logs of more than 4 MiB in all cannot be taken: leave columns out of the file, or cut it to the hours of the test, and choose it again.";

const PRICED = { "described.currency": "EUR" } satisfies Partial<Record<FieldName, string>>;
const IMPERIAL = {
  "described.currency": "USD",
  "room.unit": "ft",
  "room.temperature_unit": "[degF]",
  "described.setting_flow_unit": "[cft_i]/min",
} satisfies Partial<Record<FieldName, string>>;

const Start = z.object({ configuration: z.string().max(40).optional(), setting: z.string().max(60).optional() });

interface Form {
  readonly fields: Map<string, string>;
  readonly logs: ReadonlyMap<Slot, FormLog>;
  readonly lost: readonly FieldComplaint[];
  readonly action: Action;
}

async function readForm(c: Ctx): Promise<Form> {
  const body = await readBody(c.req.raw);
  if (body.kind !== "form") throw new RequestError("unsupported-media-type", "This page takes its own form only.");
  const { logs, complaints } = await logsOfForm(body.fields, body.files);
  const asked = ACTIONS.find((action) => action === body.fields.get("do"));
  const fields = shortenedAll(body.fields);
  const forgotten = await forgetReplaced(fields, body.files);
  return { fields, logs, lost: [...complaints, ...forgotten], action: asked ?? "preview" };
}

/** No field but a log's may hold so much: what is longer is refused all the same, and not sent back whole. */
function shortenedAll(fields: ReadonlyMap<string, string>): Map<string, string> {
  const most = (name: string) => (/\.(text|kept)$/.test(name) ? Number.POSITIVE_INFINITY : 10_000);
  return new Map([...fields].map(([name, value]) => [name, value.slice(0, most(name))]));
}

async function answerForm(c: Ctx, { fields, logs, lost, action }: Form): Promise<Response> {
  const { deps } = c.var;
  const copied = fields.get("copy");
  const stored = copied === undefined ? null : await findStored(deps, copied);
  if (stored) describeStored(stored.json, fields);
  const made = trialFromForm(fields, logs);
  const looked = await previewOfForm(deps, made, fields, logs);
  fillTime(fields, looked.startMs);
  const chosen = chosenConfiguration(new FormReader(fields));
  if (chosen !== undefined) fields.set("configuration", chosen);
  const similar = chosen === DESCRIBED ? await choicesLike(deps, made.trial.configuration) : null;
  const told = { logs, looked, similar };
  if (stored) return showForm(c, fields, { ...told, status: 200 });
  if (action === "find") return showForm(c, fields, { ...told, words: fields.get("find")?.trim() ?? "" });
  if (action === "rows") {
    const last = Math.min(MOST_PARTS, partRowsShown(fields) + 3) - 1;
    fields.set(
      `described.parts.${last}.description` satisfies FieldName,
      fields.get(`described.parts.${last}.description`) ?? "",
    );
    return showForm(c, fields, told);
  }
  const complaints = new Complaints(fields, made, lost);
  if (action === "key") {
    const handle = fields.get("handle")?.trim() || undefined;
    const parsed = KeyIn.safeParse({ handle });
    if (!parsed.success) {
      return showForm(c, fields, {
        ...told,
        complaints: [{ field: "handle", detail: "At most 60 plain characters." }],
      });
    }
    const { text } = await createKey(deps, parsed.data.handle ?? null);
    fields.set("key", text);
    return showForm(c, fields, { ...told, isNewKey: true });
  }
  if (looked.refused) complaints.addRefusal(looked.refused);
  if (action === "preview") return showForm(c, fields, { ...told, ...complaints.told() });
  complaints.add(...wantingForPublication(made.trial, fields));
  if (similar && isInDoubt(similar) && !fields.has("described.compared")) {
    complaints.add({ field: "configuration", detail: "Is it one of those listed here? If it is not, publish again." });
  }
  complaints.checkTrial();
  if (complaints.none) {
    try {
      return c.redirect(publishedAt(await publish(deps, made, fields.get("key") ?? "")), 303);
    } catch (error) {
      if (!(error instanceof RequestError || error instanceof StoreError)) throw error;
      complaints.addRefusal(error);
    }
  }
  return showForm(c, fields, { ...told, ...complaints.told() });
}

/** The same parts are the same configuration without asking. */
function isInDoubt(similar: readonly ConfigurationChoice[]): boolean {
  return similar.length > 0 && similar.every(({ differs }) => differs !== null && differs.length > 0);
}

/** A log that is stamped says when the test began. */
function fillTime(fields: Map<string, string>, startMs: number | null): void {
  if (startMs === null || fields.get("performed_at")?.trim()) return;
  fields.set("performed_at", new Date(startMs).toISOString().slice(0, 16));
  fields.set("performed_offset", "+00:00");
}
