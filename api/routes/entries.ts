import { z } from "@hono/zod-openapi";
import { findEntry, findMovedEntry } from "../../db/entries.ts";
import { answer, readQuery } from "../answer.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { poolByAerosol } from "../pool-by-aerosol.ts";
import { parseId } from "../public-id.ts";
import { readEntry } from "../read-entry.ts";
import { flowUnit } from "../read-leaderboard.ts";
import { ByAerosol } from "../wire/by-aerosol.ts";
import { EntryOut, EntryQuery } from "../wire/entry.ts";

const Moved = { description: "Its configuration was merged into another: where its trials count now" };
const UnitQuery = EntryQuery.pick({ unit: true });
const AerosolsOut = z
  .object({ id: z.string(), band: z.string(), setting: z.string(), by_aerosol: z.array(ByAerosol) })
  .openapi("EntryByAerosol");

/** One entry of the list, and the same by aerosol. */
export function addEntries(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/entries/{id}",
      summary: "A configuration at a setting in a band: pooled figures on every basis, noise, power, costs, trials",
      request: { params: z.object({ id: z.string() }), query: EntryQuery },
      responses: {
        200: { description: "The entry", content: { "application/json": { schema: EntryOut } } },
        308: Moved,
        ...problems(404, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const query = readQuery(c, EntryQuery);
      const entry = await findEntry(db, parseId("entry", c.req.param("id") ?? ""));
      const moved = await findMovedEntry(db.read, entry.id);
      if (moved !== null) return c.redirect(`/v1/entries/${moved}`, 308);
      return answer(await readEntry(db, publicUrl, entry, query));
    },
  );

  endpoint(
    app,
    {
      method: "get",
      path: "/v1/entries/{id}/aerosols",
      summary: "One entry by the aerosol its trials used, pooled on reading and never ranked",
      request: { params: z.object({ id: z.string() }), query: UnitQuery },
      responses: {
        200: { description: "Most trials first", content: { "application/json": { schema: AerosolsOut } } },
        308: Moved,
        ...problems(404, 422),
      },
    },
    async (c) => {
      const { db } = c.var.deps;
      const unit = flowUnit(readQuery(c, UnitQuery).unit);
      const entry = await findEntry(db, parseId("entry", c.req.param("id") ?? ""));
      const moved = await findMovedEntry(db.read, entry.id);
      if (moved !== null) return c.redirect(`/v1/entries/${moved}/aerosols`, 308);
      const { id, band, setting } = entry;
      return answer({ id, band, setting, by_aerosol: await poolByAerosol(db.read, entry, unit) });
    },
  );
}
