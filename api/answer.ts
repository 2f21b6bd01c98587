import { z } from "@hono/zod-openapi";
import type { Ctx } from "./environment.ts";
import { fromZod } from "./failure.ts";
import { invalid, RequestError } from "./problem.ts";

/** A JSON answer, indented: it is read by people at a terminal as often as by programs, and compresses all the same. */
export function answer(body: unknown, status = 200, headers: Record<string, string> = {}): Response {
  return new Response(`${JSON.stringify(body, null, 2)}\n`, {
    status,
    headers: { "Content-Type": "application/json; charset=utf-8", ...headers },
  });
}

/**
 * The query of a request by its schema. A parameter nobody knows, or given twice, is refused, since silence would read as
 * obeyed; one left empty, as forms send them, asks for nothing.
 */
export function readQuery<T extends z.ZodRawShape>(c: Ctx, schema: z.ZodObject<T>): z.infer<z.ZodObject<T>> {
  return read(schema, Object.entries(c.req.queries()));
}

/** The query of a page: links get passed around with parameters added by others, and those are none of a page's business. */
export function readPageQuery<T extends z.ZodRawShape>(c: Ctx, schema: z.ZodObject<T>): z.infer<z.ZodObject<T>> {
  return read(
    schema,
    Object.entries(c.req.queries()).filter(([name]) => Object.hasOwn(schema.shape, name)),
  );
}

function read<T extends z.ZodRawShape>(schema: z.ZodObject<T>, query: [string, string[]][]): z.infer<z.ZodObject<T>> {
  const sent = query.filter(([, values]) => values.some((value) => value !== ""));
  const twice = sent.find(([, values]) => values.length > 1);
  if (twice) throw invalid([twice[0]], `The query parameter ${twice[0]} is given ${twice[1].length} times.`);
  const parsed = z.strictObject(schema.shape).safeParse(Object.fromEntries(sent.map(([name, [text]]) => [name, text])));
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
