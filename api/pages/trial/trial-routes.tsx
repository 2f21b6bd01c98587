import { z } from "@hono/zod-openapi";
import { findSeries, listRuns } from "../../../db/trials.ts";
import { readPageQuery } from "../../answer.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { parseId } from "../../public-id.ts";
import { unpackSeries } from "../../series-blob.ts";
import { viewTrial } from "../../views.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { type DrawnRun, TrialPage } from "./trial-page.tsx";

/** `GET /trials/{id}`. */
export function addTrialPage(app: App): void {
  app.get("/trials/:id", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const trial = await viewTrial(db, publicUrl, parseId("trial", c.req.param("id")));
    return htmlAnswer(c, <TrialPage reader={readerOf(c)} trial={trial} runs={await drawnRuns(c, trial)} />);
  });
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
