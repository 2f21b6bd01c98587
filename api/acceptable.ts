import type { Ctx } from "./environment.ts";
import { RequestError } from "./problem.ts";

/**
 * Refuses, before anything is done, a request that accepts none of the media types there are for it (RFC 9110 12.5.1;
 * without the header anything will do). @throws RequestError "not-acceptable"
 */
export function requireAcceptable(c: Ctx, types: readonly string[]): void {
  const header = c.req.header("Accept")?.trim();
  if (!header || types.length === 0) return;
  const ranges = header.toLowerCase().split(",").map(readRange);
  if (types.some((type) => qualityOf(type, ranges) > 0)) return;
  throw new RequestError("not-acceptable", `This address answers with ${types.join(" or ")}.`);
}

/** Which of several media types a request likes best, the first of equals. */
export function preferredType<T extends string>(c: Ctx, types: readonly [T, ...T[]]): T {
  const header = c.req.header("Accept")?.trim();
  if (!header) return types[0];
  const ranges = header.toLowerCase().split(",").map(readRange);
  return types.reduce((best, type) => (qualityOf(type, ranges) > qualityOf(best, ranges) ? type : best));
}

interface MediaRange {
  readonly range: string;
  readonly q: number;
}

function readRange(text: string): MediaRange {
  const [range = "", ...parameters] = text.split(";").map((part) => part.trim());
  const stated = parameters.find((parameter) => parameter.startsWith("q="));
  const q = stated === undefined ? 1 : Number(stated.slice(2));
  return { range, q: Number.isFinite(q) ? q : 1 };
}

/** The most specific range that covers a type decides. */
function qualityOf(type: string, ranges: readonly MediaRange[]): number {
  const covering = [type, `${type.split("/")[0]}/*`, "*/*"];
  for (const cover of covering) {
    const found = ranges.find(({ range }) => range === cover);
    if (found) return found.q;
  }
  return 0;
}
