import { z } from "@hono/zod-openapi";
import { findLastSeq } from "../../db/leaderboard.ts";
import { preferredType } from "../acceptable.ts";
import { readQuery } from "../answer.ts";
import { entityTag, notModified } from "../conditional.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { LIST_TYPES, type ListFormat, listText } from "../leaderboard-formats.ts";
import { readLeaderboard } from "../read-leaderboard.ts";
import { LeaderboardOut, LeaderboardQuery, RankedEntry } from "../wire/leaderboard.ts";

/** `GET /v1/leaderboard`: the ranked list. */
export function addLeaderboard(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/leaderboard",
      summary: "Entries of a band, ranked; pages, filters, orders, and the state at an instant",
      request: { query: LeaderboardQuery },
      responses: {
        200: {
          description: "One page; the next one under Link",
          content: {
            "application/json": { schema: LeaderboardOut },
            "text/csv": {
              schema: z.string().openapi({ description: "Its entries, one a row; safe in spreadsheets." }),
            },
            "application/x-ndjson": { schema: RankedEntry.openapi({ description: "Its entries, one a line." }) },
          },
        },
        304: { description: "Nothing happened since the answer whose ETag came in If-None-Match" },
        ...problems(406, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const query = readQuery(c, LeaderboardQuery);
      const { pathname, search } = new URL(c.req.url);
      const format = query.format ?? acceptedFormat(c);
      const tag = await entityTag(await findLastSeq(db.read), publicUrl, search, format);
      const headers = { "Cache-Control": "no-cache", Vary: "Accept" };
      const unchanged = notModified(c, tag, headers);
      if (unchanged) return unchanged;
      const board = await readLeaderboard(db, query, `${publicUrl}${pathname}${search}`);
      return new Response(listText(board, format), {
        headers: {
          ...headers,
          ETag: tag,
          "Content-Type": `${LIST_TYPES[format]}; charset=utf-8`,
          ...(board.next ? { Link: `<${board.next}>; rel="next"` } : {}),
        },
      });
    },
  );
}

function acceptedFormat(c: Ctx): ListFormat {
  const type = preferredType(c, Object.values(LIST_TYPES) as ["application/json", "text/csv", "application/x-ndjson"]);
  return (Object.keys(LIST_TYPES) as ListFormat[]).find((format) => LIST_TYPES[format] === type)!;
}
