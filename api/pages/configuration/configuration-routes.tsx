import { findEntry, findPooled } from "../../../db/entries.ts";
import { findBandFigures, listTrialsOf } from "../../../db/trials.ts";
import type { App } from "../../endpoint.ts";
import { parseId } from "../../public-id.ts";
import { quantityOut } from "../../wire/quantity.ts";
import { writeCadr } from "../../write-ranked-entry.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { EntryPage } from "./entry-page.tsx";

/** What is said of one configuration, and of one of its entries. */
export function addConfigurationPages(app: App): void {
  app.get("/entries/:id", async (c) => {
    const { db } = c.var.deps;
    const entry = await findEntry(db, parseId("entry", c.req.param("id")));
    const [pooled, trials, figures] = await Promise.all([
      findPooled(db.read, entry.id),
      listTrialsOf(db, { setting: entry.settingId, invented: entry.invented }),
      findBandFigures(db, entry.settingId, entry.band),
    ]);
    const shown = trials.flatMap((trial) => {
      const figure = figures.get(trial.id);
      if (!figure) return [];
      return [
        {
          ...trial,
          cadr: quantityOut({ value: figure.cadrM3PerH, u: figure.cadrU, dof: figure.cadrDof ?? Infinity }, "m3/h"),
        },
      ];
    });
    const [cadr, cfm] = ["m3/h", "[cft_i]/min"].map((unit) => pooled && writeCadr(pooled, unit));
    return htmlAnswer(
      c,
      <EntryPage
        reader={readerOf(c)}
        entry={entry}
        pooled={pooled}
        cadr={cadr ?? null}
        cfm={cfm ?? null}
        trials={shown}
      />,
    );
  });
}
