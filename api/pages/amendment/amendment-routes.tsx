import { amendTrial } from "../../amend-trial.ts";
import { readBody } from "../../body.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { parseId } from "../../public-id.ts";
import { type TrialView, viewTrial } from "../../views.ts";
import { AmendmentIn } from "../../wire/amendment.ts";
import { isFromElsewhere } from "../from-elsewhere.ts";
import { keyHolder } from "../key-holder.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { type Amended, AmendmentPage, type AmendmentView } from "./amendment-page.tsx";

/** `GET` and `POST /trials/{id}/amendment`: what `POST /v1/trials/{id}/revisions` does to what people most often mistype. */
export function addAmendmentPage(app: App): void {
  app.get("/trials/:id/amendment", async (c) => {
    const trial = await trialOf(c);
    return show(c, trial, recordOf(trial), {});
  });

  app.post("/trials/:id/amendment", async (c) => {
    const trial = await trialOf(c);
    const record = recordOf(trial);
    if (isFromElsewhere(c)) return show(c, trial, record, { key: "Another site sent this. Enter it here." });
    const body = await readBody(c.req.raw);
    const fields = body.kind === "form" ? body.fields : new Map<string, string>();
    const filled = filledIn(record, fields);
    const sent = changesIn(trial, record, filled);
    const amendment = AmendmentIn.safeParse(sent);
    const holder = await keyHolder(c.var.deps, fields.get("key"), trial.submitter.id);
    const complaints = {
      ...("wrong" in holder ? { key: holder.wrong } : {}),
      ...(!("wrong" in holder) && holder.actor === "operator"
        ? { key: "What a test was is its submitter's to say." }
        : {}),
      ...complaintsOf(amendment),
      ...(Object.keys(sent).length === 1 ? { whole: NOTHING } : {}),
    };
    if (Object.keys(complaints).length > 0 || "wrong" in holder || !amendment.success) {
      return show(c, trial, filled, complaints);
    }
    const amending = { id: trial.id, actor: holder.actor, amendment: amendment.data, sent };
    if (!(await amendTrial(c.var.deps, amending))) return show(c, trial, filled, { whole: NOTHING });
    return c.redirect(`/trials/${trial.id}`, 303);
  });
}

const NOTHING = "The record says all of this already. Change what was wrong.";

async function trialOf(c: Ctx): Promise<TrialView> {
  const { db, publicUrl } = c.var.deps;
  return viewTrial(db, publicUrl, parseId("trial", c.req.param("id") ?? ""));
}

async function show(c: Ctx, trial: TrialView, filled: Amended, complaints: AmendmentView["complaints"]) {
  const view = { reader: readerOf(c), trial, filled, complaints };
  return htmlAnswer(c, <AmendmentPage {...view} />, Object.keys(complaints).length > 0 ? 422 : 200);
}

function recordOf({ interest, aerosol, note }: TrialView): Amended {
  return { interest, aerosol: aerosol?.kind ?? "", note: note ?? "", reason: "" };
}

/** What was sent, over what the record says: a field that did not come changes nothing. */
function filledIn(record: Amended, fields: ReadonlyMap<string, string>): Amended {
  const note = (fields.get("note") ?? record.note).replaceAll("\r\n", "\n").slice(0, 20_000);
  return {
    interest: fields.get("interest") ?? record.interest,
    aerosol: fields.get("aerosol") ?? record.aerosol,
    note: note.trim() === "" ? "" : note,
    reason: (fields.get("reason") ?? "").replaceAll(/\s+/g, " ").slice(0, 2000),
  };
}

/** The amendment that makes the record say what was filled in: only what differs, so that an erased word stays as it is. */
function changesIn(trial: TrialView, record: Amended, filled: Amended): Record<string, unknown> {
  const aerosolNote = trial.aerosol?.note;
  return {
    reason: filled.reason,
    ...(filled.interest === record.interest ? {} : { interest: filled.interest }),
    ...(filled.aerosol === record.aerosol
      ? {}
      : { aerosol: { kind: filled.aerosol, ...(aerosolNote ? { note: aerosolNote } : {}) } }),
    ...(filled.note === record.note ? {} : { note: filled.note === "" ? null : filled.note }),
  };
}

function complaintsOf(amendment: ReturnType<typeof AmendmentIn.safeParse>): AmendmentView["complaints"] {
  if (amendment.success) return {};
  const fields = new Set(amendment.error.issues.map(({ path }) => path[0]));
  return {
    ...(fields.has("reason") ? { reason: "Say why, in 1 to 1000 characters: readers see it." } : {}),
    ...(fields.has("note") ? { note: "A note is plain text of at most 4000 characters." } : {}),
    ...(fields.has("interest") || fields.has("aerosol") ? { whole: "Choose from the lists." } : {}),
  };
}
