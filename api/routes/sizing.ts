import { answer, readQuery } from "../answer.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { readSizing } from "../read-sizing.ts";
import { SizingOut, SizingQuery } from "../wire/sizing.ts";

/** `GET /v1/sizing`: what a reader's own room needs. */
export function addSizing(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/sizing",
      summary: "Sets of units for a room: from its volume and a target, with probability, noise at the seat and cost",
      request: { query: SizingQuery },
      responses: {
        200: { description: "Sets that do", content: { "application/json": { schema: SizingOut } } },
        ...problems(422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      return answer(await readSizing(db, publicUrl, readQuery(c, SizingQuery)));
    },
  );
}
