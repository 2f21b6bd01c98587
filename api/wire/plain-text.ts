import { z } from "@hono/zod-openapi";
import { isPlain, NOT_PLAIN } from "./is-plain.ts";

export { isPlain, NOT_PLAIN };

/** Text of 1 to `max` characters, trimmed, that comes back from the database as it went in. */
export function plainText(max: number) {
  return z.string().trim().min(1).max(max).refine(isPlain, NOT_PLAIN);
}
