import { z } from "@hono/zod-openapi";
import { HTTPException } from "hono/http-exception";
import { ReadingError } from "../analysis/reading/reading-error.ts";
import { StoreError } from "../db/store-error.ts";
import { pointer, problem, RequestError } from "./problem.ts";

/** The one way out for everything thrown: known errors become problems, the rest is logged and told as a plain 500. */
export function failure(error: unknown, publicUrl: string): Response {
  if (error instanceof RequestError) {
    const errors = error.errors.length ? { errors: error.errors } : {};
    return problem(error.code, publicUrl, error.message, { ...errors, ...error.details });
  }
  if (error instanceof StoreError) return problem(error.code, publicUrl, error.message, error.details);
  if (error instanceof z.ZodError) return failure(fromZod(error), publicUrl);
  if (error instanceof ReadingError) {
    return problem("invalid", publicUrl, error.message, {
      errors: [{ detail: error.message, pointer: "#" }],
      reading: error.code,
    });
  }
  if (error instanceof HTTPException && error.status < 500) return problem("malformed", publicUrl, error.message);
  console.error(error); // the message may hold SQL or somebody's words: it stays here
  return problem("internal", publicUrl, "The error was logged. Nothing was stored.");
}

/** Zod's issues as complaints with pointers, below a path of the request. */
export function fromZod(error: z.ZodError, below: readonly PropertyKey[] = []): RequestError {
  const errors = flatten(error.issues.slice(0, MOST_COMPLAINTS), below).slice(0, MOST_COMPLAINTS);
  const first = errors[0];
  const detail = first ? `${first.pointer}: ${first.detail}` : "The content does not fit.";
  return new RequestError("invalid", errors.length > 1 ? `${detail} (and ${errors.length - 1} more)` : detail, errors);
}

const MOST_COMPLAINTS = 50;

type Issue = z.core.$ZodIssue;

function flatten(issues: readonly Issue[], below: readonly PropertyKey[]): { detail: string; pointer: string }[] {
  return issues.flatMap((issue) => {
    const path = [...below, ...issue.path];
    if (issue.code === "invalid_union") {
      // Of the alternatives, the one that came furthest is what was meant.
      const best = [...issue.errors].sort((a, b) => depth(b) - depth(a))[0];
      if (best && depth(best) > 0) return flatten(best.slice(0, MOST_COMPLAINTS), path);
    }
    if (issue.code === "unrecognized_keys") {
      return issue.keys.slice(0, MOST_COMPLAINTS).map((key) => ({
        detail: `Unknown field ${JSON.stringify(key)}.`,
        pointer: pointer([...path, key]),
      }));
    }
    return [{ detail: issue.message, pointer: pointer(path) }];
  });
}

function depth(issues: readonly Issue[]): number {
  return issues.reduce((deepest, { path, code }) => {
    return Math.max(deepest, path.length + (code === "unrecognized_keys" ? 1 : 0));
  }, 0);
}
