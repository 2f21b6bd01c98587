import { findTrial } from "../../../db/trials.ts";
import { readBody } from "../../body.ts";
import { holderOf } from "../../caller.ts";
import { changeState } from "../../change-state.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx, Dependencies } from "../../environment.ts";
import { RequestError } from "../../problem.ts";
import { parseId } from "../../public-id.ts";
import { viewTrial } from "../../views.ts";
import { plainText } from "../../wire/plain-text.ts";
import { isFromElsewhere } from "../from-elsewhere.ts";
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
    const key = fields.get("key")?.replaceAll(/\s+/g, "") ?? "";
    const reason = Reason.safeParse(fields.get("reason")?.replaceAll(/\s+/g, " "));
    const { id, submitter } = await findTrial(c.var.deps.db.read, parseId("trial", c.req.param("id")));
    const holder = await holderOrWrong(c.var.deps, key, submitter);
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

/** Whose key it is, if that one may withdraw the submitter's tests, or why not. */
async function holderOrWrong(
  deps: Dependencies,
  key: string,
  submitter: string,
): Promise<{ actor: string } | { wrong: string }> {
  if (key === "") return { wrong: "The key that the test was published with is needed." };
  try {
    const holder = await holderOf(deps, key);
    if (holder.kind === "operator") return { actor: "operator" };
    if (holder.kind === "submitter" && holder.submitter === submitter) return { actor: submitter };
    return { wrong: "This test was published with another key." };
  } catch (error) {
    if (error instanceof RequestError) return { wrong: error.message };
    throw error;
  }
}
