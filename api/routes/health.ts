import { z } from "@hono/zod-openapi";
import migrations from "../../db/migrations/meta/_journal.json";
import { findSchemaVersion } from "../../db/schema-version.ts";
import { answer } from "../answer.ts";
import { type App, endpoint } from "../endpoint.ts";

/** The schema this code is written for: the number of its migrations. */
const EXPECTED = migrations.entries.length;
const Health = z
  .object({ status: z.enum(["ok", "unready"]), schema_version: z.int().optional(), expected: z.int().optional() })
  .openapi("Health");

/** Liveness, and readiness with the schema version. */
export function addHealth(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/healthz",
      summary: "The process answers",
      responses: { 200: { description: "It does", content: { "application/json": { schema: Health } } } },
    },
    () => answer({ status: "ok" }),
  );
  endpoint(
    app,
    {
      method: "get",
      path: "/readyz",
      summary: "The database answers and has this code's schema",
      responses: {
        200: { description: "Ready", content: { "application/json": { schema: Health } } },
        503: { description: "Not migrated, or out of reach", content: { "application/json": { schema: Health } } },
      },
    },
    async (c) => {
      const version = await findSchemaVersion(c.var.deps.db).catch(() => 0);
      const ready = version === EXPECTED;
      return answer(
        { status: ready ? "ok" : "unready", schema_version: version, expected: EXPECTED },
        ready ? 200 : 503,
      );
    },
  );
}
