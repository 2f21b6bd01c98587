import { z } from "@hono/zod-openapi";
import { listNewest } from "../../db/events.ts";
import { answer, readQuery } from "../answer.ts";
import { type App, endpoint, problems } from "../endpoint.ts";

const EventsQuery = z.object({
  subject: z.string().max(60).optional().openapi({ description: "What it happened to: the id of a trial, room …" }),
  before: z.coerce.number().int().positive().optional().openapi({ description: "A seq: only what came before it." }),
  limit: z.coerce.number().int().min(1).max(500).default(100),
});

const Events = z
  .object({
    events: z.array(
      z.object({
        seq: z.int(),
        at: z.string(),
        kind: z.string(),
        subject: z.string(),
        actor: z.string().openapi({ description: "A submitter's id, operator, reader, rule or registry" }),
        reason: z.string().nullable(),
      }),
    ),
    next: z.string().nullable(),
  })
  .openapi("Events");

/** `GET /v1/events`: the log of everything that happened. Lines are added, never changed. */
export function addEvents(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/events",
      summary: "The log of everything that happened, newest first; lines are added, never changed",
      request: { query: EventsQuery },
      responses: {
        200: { description: "A page of it", content: { "application/json": { schema: Events } } },
        ...problems(422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      const { subject, before, limit } = readQuery(c, EventsQuery);
      const found = await listNewest(db.read, { subject, before, limit: limit + 1 });
      const events = found.slice(0, limit);
      const query = new URLSearchParams({ limit: String(limit), ...(subject === undefined ? {} : { subject }) });
      const next = found.length > limit ? `${publicUrl}/v1/events?${query}&before=${events.at(-1)!.seq}` : null;
      return answer({ events, next }, 200, next ? { Link: `<${next}>; rel="next"` } : {});
    },
  );
}
