import { findKey } from "../db/submitters.ts";
import type { Ctx, Dependencies } from "./environment.ts";
import { RequestError } from "./problem.ts";
import { equalBytes } from "./secret.ts";
import { parseKey } from "./submitter-key.ts";

/** Who calls: a submitter with a valid key, the operator, or anyone. */
export type Caller =
  | { readonly kind: "submitter"; readonly submitter: string }
  | { readonly kind: "operator" }
  | { readonly kind: "anyone" };

/** Reads the Authorization header. @throws RequestError "unauthorized" where a key is given that opens nothing */
export async function findCaller(c: Ctx): Promise<Caller> {
  const header = c.req.header("Authorization");
  if (header === undefined) return { kind: "anyone" };
  const token = /^Bearer +(\S+) *$/i.exec(header)?.[1];
  if (token === undefined) throw new RequestError("unauthorized", "Send the key as: Authorization: Bearer mote_…");
  return holderOf(c.var.deps, token);
}

/** Whose key this is. @throws RequestError "unauthorized" where it opens nothing */
export async function holderOf(deps: Dependencies, token: string): Promise<Caller> {
  if (await isOperator(deps, token)) return { kind: "operator" };
  const key = parseKey(token);
  if (!key)
    throw new RequestError("unauthorized", "The key is mistyped: it has the wrong form or its check character fails.");
  const holder = await findKey(deps.db, key.prefix);
  if (!holder || !equalBytes(holder.mac, await deps.secret.mac("key", key.text))) {
    throw new RequestError("unauthorized", "This key is not known here.");
  }
  if (holder.revoked) throw new RequestError("unauthorized", "This key was revoked.");
  return { kind: "submitter", submitter: holder.submitter };
}

/** The submitter who calls. @throws RequestError "unauthorized" without a key, "forbidden" for the operator */
export async function requireSubmitter(c: Ctx): Promise<string> {
  const caller = await findCaller(c);
  if (caller.kind === "anyone") {
    throw new RequestError("unauthorized", "Storing needs a key. Make one with: curl -X POST …/v1/keys");
  }
  if (caller.kind === "operator")
    throw new RequestError("forbidden", "The operator's key stores nothing: trials belong to a submitter.");
  return caller.submitter;
}

/** The operator, or the submitter that owns the thing. @throws RequestError "unauthorized" or "forbidden" */
export async function requireOwner(c: Ctx, owner: string, what: string): Promise<string> {
  const caller = await findCaller(c);
  if (caller.kind === "operator") return "operator";
  if (caller.kind === "anyone")
    throw new RequestError("unauthorized", `This needs the key of the ${what}'s submitter.`);
  if (caller.submitter !== owner) throw new RequestError("forbidden", `This ${what} belongs to another submitter.`);
  return owner;
}

/** @throws RequestError "unauthorized", or "forbidden" for what the operator alone does */
export async function requireOperator(c: Ctx, does: string): Promise<void> {
  const { kind } = await findCaller(c);
  if (kind === "anyone") throw new RequestError("unauthorized", "This needs the operator's key.");
  if (kind !== "operator") throw new RequestError("forbidden", `Only the operator ${does}.`);
}

/** Both sides are MACed first, so that neither length nor content shows in the time the comparison takes. */
async function isOperator({ operatorKey, secret }: Dependencies, token: string): Promise<boolean> {
  if (!operatorKey) return false;
  return equalBytes(await secret.mac("key", token), await secret.mac("key", operatorKey));
}
