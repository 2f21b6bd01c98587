import { z } from "@hono/zod-openapi";
import { findEntry, findPooled } from "../../db/entries.ts";
import { findBandFigures, findSeries, listRuns, listTrialsOf } from "../../db/trials.ts";
import { readPageQuery } from "../answer.ts";
import type { App } from "../endpoint.ts";
import type { Ctx } from "../environment.ts";
import { parseId } from "../public-id.ts";
import { readLeaderboard } from "../read-leaderboard.ts";
import { unpackSeries } from "../series-blob.ts";
import { viewTrial } from "../views.ts";
import { LeaderboardQuery } from "../wire/leaderboard.ts";
import { quantityOut } from "../wire/quantity.ts";
import { writeCadr } from "../write-ranked-entry.ts";
import { EntryPage } from "./entry-page.tsx";
import { HomePage } from "./home-page.tsx";
import { MARK } from "./mark.ts";
import { htmlAnswer } from "./page.tsx";
import { STYLESHEET } from "./stylesheet.ts";
import { type DrawnRun, TrialPage } from "./trial-page.tsx";

/** The pages: server-made HTML over the same functions as the API. */
export function addPages(app: App): void {
  app.get("/", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const query = readPageQuery(c, LeaderboardQuery);
    const board = await readLeaderboard(db, query, `${publicUrl}/v1/leaderboard${new URL(c.req.url).search}`);
    return htmlAnswer(<HomePage board={board} />);
  });

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
    return htmlAnswer(<EntryPage entry={entry} pooled={pooled} cadr={cadr ?? null} cfm={cfm ?? null} trials={shown} />);
  });

  app.get("/trials/:id", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const trial = await viewTrial(db, publicUrl, parseId("trial", c.req.param("id")));
    return htmlAnswer(<TrialPage trial={trial} runs={await drawnRuns(c, trial)} />);
  });

  app.get("/motefall.css", () => asset(STYLESHEET, "text/css; charset=utf-8"));
  app.get("/motefall.svg", () => asset(MARK, "image/svg+xml"));
}

function asset(text: string, type: string): Response {
  return new Response(text, { headers: { "Content-Type": type, "Cache-Control": "public, max-age=3600" } });
}

const Shown = z.object({ channel: z.string().optional() });

/** Each run with the channel to draw: the one asked for, else the first that has a result. */
async function drawnRuns(c: Ctx, trial: Awaited<ReturnType<typeof viewTrial>>): Promise<DrawnRun[]> {
  const { db } = c.var.deps;
  const wanted = readPageQuery(c, Shown).channel;
  const runs = await listRuns(db.read, trial.id, trial.revision);
  const drawn = await Promise.all(
    runs.map(async (run) => {
      const stored = await findSeries(db.read, run.series).catch(() => null); // erased: the figures stay, the drawing goes
      if (!stored) return [];
      const { tS, channels } = unpackSeries(stored);
      const resultOf = (id: string) =>
        trial.analysis.results.find(({ band }) => band.kind === "channel" && band.name === `${run.counter}/${id}`) ??
        null;
      const channel =
        channels.find(({ id }) => id === wanted) ?? channels.find(({ id }) => resultOf(id)) ?? channels[0];
      return channel
        ? [{ n: run.n, role: run.role, counter: run.counter, tS, channel, result: resultOf(channel.id) }]
        : [];
    }),
  );
  return drawn.flat();
}
