import { z } from "@hono/zod-openapi";
import { METHOD_VERSION } from "../../analysis/method-version.ts";
import { answer } from "../answer.ts";
import { type App, endpoint } from "../endpoint.ts";
import { ERRORS } from "../problem.ts";

const Problem = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    code: z.enum(Object.keys(ERRORS) as [keyof typeof ERRORS]),
    detail: z.string(),
    errors: z.array(z.object({ detail: z.string(), pointer: z.string() })).optional(),
  })
  .openapi("Problem", { description: "RFC 9457 problem details" });

/** `GET /openapi.json`: OpenAPI 3.1 made from the schemas that validate. Added last, when all routes are known. */
export function addOpenApi(app: App): void {
  app.openAPIRegistry.register("Problem", Problem);
  app.openAPIRegistry.registerComponent("securitySchemes", "key", {
    type: "http",
    scheme: "bearer",
    bearerFormat: "mote_…",
  });
  let document: object | undefined;
  endpoint(
    app,
    {
      method: "get",
      path: "/openapi.json",
      summary: "This description",
      responses: {
        200: { description: "OpenAPI 3.1", content: { "application/json": { schema: z.looseObject({}) } } },
      },
    },
    (c) => {
      document ??= app.getOpenAPI31Document({
        openapi: "3.1.0",
        info: {
          title: "Motefall",
          version: METHOD_VERSION,
          description:
            "A shared registry of air-cleaner decay tests. Measurements by volunteers: not certification, and no medical advice.",
        },
        servers: [{ url: c.var.deps.publicUrl }],
      });
      return answer(document);
    },
  );
}
