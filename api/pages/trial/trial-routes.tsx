import { z } from "@hono/zod-openapi";
import { readPageQuery } from "../../answer.ts";
import type { App } from "../../endpoint.ts";
import type { Ctx } from "../../environment.ts";
import { pinOfResult } from "../../pins/current-pin.ts";
import { parseId } from "../../public-id.ts";
import { readPlaces } from "../../read-places.ts";
import { type TrialView, viewTrial } from "../../views.ts";
import type { BandResultOut } from "../../wire/analysis.ts";
import { htmlAnswer } from "../page.tsx";
import { quoteOf } from "../quote/quote-of.tsx";
import { readerOf } from "../reader.ts";
import { drawRuns } from "./draw-runs.ts";
import { type Asked, NOTHING_ASKED } from "./questions.tsx";
import { TrialPage } from "./trial-page.tsx";

/** `GET /trials/{id}`, with `channel=` the band or channel to draw. */
export function addTrialPage(app: App): void {
  app.get("/trials/:id", (c) => showTrial(c, NOTHING_ASKED, 200));
}

/** A trial's page, with a question that was refused where somebody sent one. */
export async function showTrial(c: Ctx, asked: Asked, status: number): Promise<Response> {
  const { db, publicUrl } = c.var.deps;
  const trial = await viewTrial(db, publicUrl, parseId("trial", c.req.param("id") ?? ""));
  const choices = choicesOf(trial);
  const { channel: wanted, published } = readPageQuery(c, Shown);
  const drawn = choices.find(({ name }) => name === wanted) ?? choices[0] ?? null;
  const runs = drawn ? await drawRuns(db.read, trial, drawn.name) : [];
  const isNew = published !== undefined;
  const pin = pinOfResult(trial.id, trial.revision, trial.analysis, drawn?.name);
  const quoted = await quoteOf(c.var.deps, pin, `/trials/${trial.id}`);
  const counts = trial.state === "listed" || trial.state === "questioned";
  const places = counts ? await readPlaces(db, trial.entries) : [];
  const view = { trial, runs, drawn, choices, isNew, places, quoted, asked };
  return htmlAnswer(c, <TrialPage reader={readerOf(c)} {...view} />, status);
}

const Shown = z.object({ channel: z.string().optional(), published: z.string().optional() });

type Band = BandResultOut["band"];

/** What may be drawn: what has a rate, standard bands first; then natural losses, then channels that gave nothing. */
function choicesOf({ analysis: { results, naturals, refusals } }: TrialView): Band[] {
  const known = [...results, ...naturals].map(({ band }) => band);
  const refused = refusals.flatMap(({ band }): Band[] =>
    band?.includes("/") ? [{ kind: "channel", name: band, from_um: null, to_um: null, coverage: null }] : [],
  );
  const byName = new Map([...known, ...refused].map((band) => [band.name, band]).reverse() as [string, Band][]);
  return [...byName.values()].reverse();
}
