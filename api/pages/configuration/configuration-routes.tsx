import { z } from "@hono/zod-openapi";
import { findConfiguration, listConfigurations } from "../../../db/configurations.ts";
import { findEntry, findMovedEntry } from "../../../db/entries.ts";
import { readPageQuery } from "../../answer.ts";
import { listBestEntries } from "../../best-entries.ts";
import type { App } from "../../endpoint.ts";
import { currentPinOfEntry } from "../../pins/current-pin.ts";
import { parseId } from "../../public-id.ts";
import { readEntry } from "../../read-entry.ts";
import { BandName } from "../../wire/leaderboard.ts";
import { htmlAnswer } from "../page.tsx";
import { quoteOf } from "../quote/quote-of.tsx";
import { readerOf } from "../reader.ts";
import { ConfigurationPage } from "./configuration-page.tsx";
import { ConfigurationsPage } from "./configurations-page.tsx";
import { describeConfiguration } from "./described.ts";
import { EntryPage } from "./entry-page.tsx";
import { readYear } from "./year-form.tsx";

const MOST = 50;
/** A title holds no control character, so that leaving them out loses nothing. */
const Search = z.object({
  q: z
    .string()
    .transform((text) =>
      text
        .slice(0, 100)
        .toWellFormed()
        .replaceAll(/\p{Cc}/gu, " ")
        .trim(),
    )
    .default(""),
});
const Shown = z.object({ band: BandName.optional(), setting: z.string().optional() });

/** All configurations, one of them, and one of its entries. */
export function addConfigurationPages(app: App): void {
  app.get("/configurations", async (c) => {
    const { db } = c.var.deps;
    const reader = readerOf(c);
    const { q } = readPageQuery(c, Search);
    const all = await listConfigurations(db, q, MOST + 1);
    const found = all.slice(0, MOST);
    const best = await listBestEntries(
      db.read,
      found.map(({ id }) => id),
      { unit: reader.flow },
    );
    const page = <ConfigurationsPage reader={reader} q={q} found={found} best={best} isCut={all.length > MOST} />;
    return htmlAnswer(c, page);
  });

  app.get("/configurations/:id", async (c) => {
    const { deps } = c.var;
    const reader = readerOf(c);
    const stored = await findConfiguration(deps.db.read, parseId("configuration", c.req.param("id")));
    if (stored.mergedInto !== null) {
      return c.redirect(`/configurations/${stored.mergedInto}${new URL(c.req.url).search}`, 308);
    }
    const { band, setting } = readPageQuery(c, Shown);
    const year = readYear(c);
    const described = await describeConfiguration(deps, stored, { band, setting, flow: reader.flow, year: year.query });
    const page = <ConfigurationPage reader={reader} described={described} year={year} />;
    return htmlAnswer(c, page, Object.keys(year.complaints).length > 0 ? 422 : 200);
  });

  app.get("/entries/:id", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const reader = readerOf(c);
    const entry = await findEntry(db, parseId("entry", c.req.param("id")));
    const moved = await findMovedEntry(db.read, entry.id);
    if (moved !== null) return c.redirect(`/entries/${moved}${new URL(c.req.url).search}`, 308);
    const year = readYear(c);
    const out = await readEntry(db, publicUrl, entry, { ...year.query, unit: reader.flow });
    const pin = await currentPinOfEntry(db.read, entry.id);
    const quoted = await quoteOf(c.var.deps, pin, `/entries/${entry.id}`);
    const address = `${publicUrl}/entries/${entry.id}`;
    const page = <EntryPage reader={reader} entry={out} page={address} year={year} quoted={quoted} />;
    return htmlAnswer(c, page, Object.keys(year.complaints).length > 0 ? 422 : 200);
  });
}
