import { z } from "@hono/zod-openapi";
import { findEntry, findPooled } from "../../db/entries.ts";
import { listTrialsOf } from "../../db/trials.ts";
import { answer, readQuery } from "../answer.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { parseId } from "../public-id.ts";
import { flowUnit, pooledCadr, readLeaderboard } from "../read-leaderboard.ts";
import { EntryOut, LeaderboardOut, LeaderboardQuery } from "../wire/leaderboard.ts";

const UnitQuery = z.object({ unit: z.string().max(40).default("m3/h") });

/** The ranked list, and one entry of it. */
export function addLeaderboard(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/leaderboard",
      summary: "Entries of a band, strongest first",
      request: { query: LeaderboardQuery },
      responses: {
        200: {
          description: "One page; the next one under Link",
          content: { "application/json": { schema: LeaderboardOut } },
        },
        ...problems(422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const { pathname, search } = new URL(c.req.url);
      const page = await readLeaderboard(db, readQuery(c, LeaderboardQuery), `${publicUrl}${pathname}${search}`);
      return answer(page, 200, page.next ? { Link: `<${page.next}>; rel="next"` } : {});
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/entries/{id}",
      summary: "A configuration at a setting in a band: its pooled figures, rooms and trials",
      request: { params: z.object({ id: z.string() }), query: UnitQuery },
      responses: {
        200: { description: "The entry", content: { "application/json": { schema: EntryOut } } },
        ...problems(404, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const unit = flowUnit(readQuery(c, UnitQuery).unit);
      const entry = await findEntry(db, parseId("entry", c.req.param("id") ?? ""));
      const [pooled, trials] = await Promise.all([
        findPooled(db.read, entry.id),
        listTrialsOf(db, { setting: entry.settingId, invented: entry.invented }),
      ]);
      const { configuration, title, kind, setting, band, invented } = entry;
      return answer({
        id: entry.id,
        url: `${publicUrl}/v1/entries/${entry.id}`,
        configuration: { id: configuration, title, kind, url: `${publicUrl}/v1/configurations/${configuration}` },
        setting,
        band,
        invented,
        bases: {
          all: pooled && {
            cadr: pooledCadr(pooled, unit),
            trials: pooled.trials,
            rooms: pooled.rooms,
            submitters: pooled.submitters,
            unpaired: pooled.unpaired,
            interest: JSON.parse(pooled.interestJson) as Record<string, number>,
            members_sha256: pooled.membersHash,
            method_version: pooled.methodVersion,
            as_of_seq: pooled.seq,
          },
          independent: null,
          paired: null,
          independent_paired: null,
        },
        trials: trials.map(({ setting: _, ...trial }) => ({ ...trial, url: `${publicUrl}/v1/trials/${trial.id}` })),
      });
    },
  );
}
