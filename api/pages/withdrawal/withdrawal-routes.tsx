import { findTrial } from "../../../db/trials.ts";
import { readBody } from "../../body.ts";
import { changeState } from "../../change-state.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { parseId } from "../../public-id.ts";
import { viewTrial } from "../../views.ts";
import { plainText } from "../../wire/plain-text.ts";
import { isFromElsewhere } from "../from-elsewhere.ts";
import { keyHolder } from "../key-holder.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { WithdrawalPage, type WithdrawalView } from "./withdrawal-page.tsx";

/** `GET` and `POST /trials/{id}/withdrawal`: what `POST /v1/trials/{id}/withdrawal` does, for people. */
export function addWithdrawalPage(app: App): void {
  app.get("/trials/:id/withdrawal", (c) => show(c, { reason: "", complaints: {} }));

  app.post("/trials/:id/withdrawal", async (c) => {
    if (isFromElsewhere(c))
      return show(c, { reason: "", complaints: { key: "Another site sent this. Enter it here." } });
    const body = await readBody(c.req.raw);
    const fields = body.kind === "form" ? body.fields : new Map<string, string>();
    const reason = Reason.safeParse(fields.get("reason")?.replaceAll(/\s+/g, " "));
    const { id, submitter } = await findTrial(c.var.deps.db.read, parseId("trial", c.req.param("id")));
    const holder = await keyHolder(c.var.deps, fields.get("key"), submitter);
    if ("wrong" in holder || !reason.success) {
      const complaints = {
        ...("wrong" in holder ? { key: holder.wrong } : {}),
        ...(reason.success ? {} : { reason: "Say why, in 1 to 1000 characters: readers see it." }),
      };
      return show(c, { reason: (fields.get("reason") ?? "").slice(0, 2000), complaints });
    }
    await changeState(c.var.deps, id, "withdrawn", holder.actor, reason.data);
    return c.redirect(`/trials/${id}`, 303);
  });
}

const Reason = plainText(1000);

async function show(c: Ctx, filled: Pick<WithdrawalView, "reason" | "complaints">): Promise<Response> {
  const { db, publicUrl } = c.var.deps;
  const trial = await viewTrial(db, publicUrl, parseId("trial", c.req.param("id") ?? ""));
  const status = Object.keys(filled.complaints).length > 0 ? 422 : 200;
  return htmlAnswer(c, <WithdrawalPage reader={readerOf(c)} trial={trial} {...filled} />, status);
}
