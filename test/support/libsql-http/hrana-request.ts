import { z } from "zod";

/**
 * The requests of Hrana over HTTP, version 2 (JSON), plus `get_autocommit` and the `is_autocommit` condition of version 3.
 * Source: the protocol's public specification (HTTP_V2_SPEC, HRANA_3_SPEC). Unknown members are ignored, as it demands.
 */
export const pipelineRequest = z.object({
  baton: z.string().nullish(),
  requests: z.array(
    z.discriminatedUnion("type", [
      z.object({ type: z.literal("close") }),
      z.object({ type: z.literal("execute"), stmt: z.lazy(() => statement) }),
      z.object({ type: z.literal("batch"), batch: z.object({ steps: z.array(z.lazy(() => batchStep)) }) }),
      z.object({ type: z.literal("sequence"), sql: z.string().nullish(), sql_id: z.number().nullish() }),
      z.object({ type: z.literal("describe"), sql: z.string().nullish(), sql_id: z.number().nullish() }),
      z.object({ type: z.literal("store_sql"), sql_id: z.number(), sql: z.string() }),
      z.object({ type: z.literal("close_sql"), sql_id: z.number() }),
      z.object({ type: z.literal("get_autocommit") }),
    ]),
  ),
});

/** Integers travel as decimal strings: JSON numbers cannot hold 64 bits. */
const wireValue = z.discriminatedUnion("type", [
  z.object({ type: z.literal("null") }),
  z.object({ type: z.literal("integer"), value: z.string().regex(/^-?\d{1,19}$/) }),
  z.object({ type: z.literal("float"), value: z.number() }),
  z.object({ type: z.literal("text"), value: z.string() }),
  z.object({ type: z.literal("blob"), base64: z.string() }),
]);

const statement = z.object({
  sql: z.string().nullish(),
  sql_id: z.number().nullish(),
  args: z.array(wireValue).nullish(),
  named_args: z.array(z.object({ name: z.string(), value: wireValue })).nullish(),
  want_rows: z.boolean().nullish(),
});

const condition: z.ZodType<Condition> = z.lazy(() =>
  z.discriminatedUnion("type", [
    z.object({ type: z.literal("ok"), step: z.number() }),
    z.object({ type: z.literal("error"), step: z.number() }),
    z.object({ type: z.literal("not"), cond: condition }),
    z.object({ type: z.literal("and"), conds: z.array(condition) }),
    z.object({ type: z.literal("or"), conds: z.array(condition) }),
    z.object({ type: z.literal("is_autocommit") }),
  ]),
);

const batchStep = z.object({ condition: condition.nullish(), stmt: statement });

export type Condition =
  | { type: "ok" | "error"; step: number }
  | { type: "not"; cond: Condition }
  | { type: "and" | "or"; conds: Condition[] }
  | { type: "is_autocommit" };
export type WireValue = z.infer<typeof wireValue>;
export type Statement = z.infer<typeof statement>;
export type BatchStep = z.infer<typeof batchStep>;
export type StreamRequest = z.infer<typeof pipelineRequest>["requests"][number];
