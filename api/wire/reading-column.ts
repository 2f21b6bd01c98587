import { z } from "@hono/zod-openapi";

/** A column of readings; null marks a missing value. */
export const ReadingColumn = column(
  (value): value is number | null => value === null || isNumber(value),
  "a finite number or null",
  { type: ["number", "null"] },
);

/** A column of times: all numbers, or all stamps. */
export const TimeColumn = z.union([
  column(isNumber, "a finite number", { type: "number" }),
  column(
    (value): value is string => typeof value === "string" && value.length <= 40,
    "a stamp of up to 40 characters",
    {
      type: "string",
      maxLength: 40,
    },
  ),
]);

type Items = { readonly type: "number" | "string" | ["number", "null"]; readonly maxLength?: number };

/**
 * An array of many thousands, checked in one pass that ends at the first wrong value: a complaint about each one takes
 * longer than the analysis, and millions of them overflow the stack.
 */
function column<T>(holds: (value: unknown) => value is T, wanted: string, items: Items) {
  return z
    .custom<T[]>((value) => Array.isArray(value), { message: "Invalid input: expected array" })
    .superRefine((values, context) => {
      const at = values.findIndex((value) => !holds(value));
      if (at < 0) return;
      context.addIssue({ code: "custom", path: [at], message: `Invalid input: expected ${wanted}` });
    })
    .openapi({ type: "array", items });
}

function isNumber(value: unknown): value is number {
  return typeof value === "number" && Number.isFinite(value);
}
