import { z } from "@hono/zod-openapi";
import type { Ctx } from "./environment.ts";
import { fromZod } from "./failure.ts";
import { RequestError } from "./problem.ts";

/** A JSON answer, indented: it is read by people at a terminal as often as by programs, and compresses all the same. */
export function answer(body: unknown, status = 200, headers: Record<string, string> = {}): Response {
  return new Response(`${JSON.stringify(body, null, 2)}\n`, {
    status,
    headers: { "Content-Type": "application/json; charset=utf-8", ...headers },
  });
}

/** The query of a request by its schema; a parameter nobody knows is refused, since silence would read as obeyed. */
export function readQuery<T extends z.ZodRawShape>(c: Ctx, schema: z.ZodObject<T>): z.infer<z.ZodObject<T>> {
  const parsed = z.strictObject(schema.shape).safeParse(c.req.query());
  if (parsed.success) return parsed.data as z.infer<z.ZodObject<T>>;
  const unknown = parsed.error.issues.find((issue) => issue.code === "unrecognized_keys");
  if (unknown) {
    const known = Object.keys(schema.shape).join(", ") || "none";
    throw new RequestError(
      "invalid",
      `Unknown query parameter ${unknown.keys.join(", ")}; those known are: ${known}.`,
      [{ detail: `Known: ${known}.`, pointer: `#/${unknown.keys[0]}` }],
    );
  }
  throw fromZod(parsed.error);
}
