import { sha256Hex } from "../db/content-hash.ts";
import type { Ctx } from "./environment.ts";

/** An entity tag of all that an answer is made from: the state of the store and what was asked. Weak, for what serves it may compress. */
export async function entityTag(...parts: readonly (string | number)[]): Promise<string> {
  return `W/"${(await sha256Hex(JSON.stringify(parts))).slice(0, 32)}"`;
}

/** A 304 where the client holds what the tag names (RFC 9110 13.1.2, weak comparison), null where it must be answered. */
export function notModified(c: Ctx, tag: string, headers: Record<string, string>): Response | null {
  const held = c.req
    .header("If-None-Match")
    ?.split(",")
    .map((each) => each.trim().replace(/^(W\/)?"/, 'W/"'));
  if (!held?.some((each) => each === tag || each === "*")) return null;
  return new Response(null, { status: 304, headers: { ...headers, ETag: tag } });
}
