import { z } from "@hono/zod-openapi";
import { findConfiguration } from "../../db/configurations.ts";
import { answer, readQuery } from "../answer.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { parseId } from "../public-id.ts";
import { readFilters } from "../read-filters.ts";
import { flowUnit } from "../read-leaderboard.ts";
import { EntryQuery } from "../wire/entry.ts";
import { FiltersOut } from "../wire/filters.ts";

const UnitQuery = EntryQuery.pick({ unit: true });

/** `GET /v1/configurations/{id}/filters`: does another filter pay? */
export function addFilters(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/configurations/{id}/filters",
      summary: "One box by its filters: the same parts otherwise, with what was measured of each",
      request: { params: z.object({ id: z.string() }), query: UnitQuery },
      responses: {
        200: { description: "The box asked for first", content: { "application/json": { schema: FiltersOut } } },
        308: { description: "Merged into another: its Location" },
        ...problems(404, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const unit = flowUnit(readQuery(c, UnitQuery).unit);
      const stored = await findConfiguration(db.read, parseId("configuration", c.req.param("id") ?? ""));
      if (stored.mergedInto !== null) return c.redirect(`/v1/configurations/${stored.mergedInto}/filters`, 308);
      return answer(await readFilters(db, publicUrl, stored.id, unit));
    },
  );
}
