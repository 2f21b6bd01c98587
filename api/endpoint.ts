import type { OpenAPIHono, RouteConfig } from "@hono/zod-openapi";
import { requireAcceptable } from "./acceptable.ts";
import type { Env, Handler } from "./environment.ts";

export type App = OpenAPIHono<Env>;

/** Puts a handler at its path and its description into /openapi.json. Paths are written as OpenAPI writes them. */
export function endpoint(app: App, route: RouteConfig, handler: Handler): void {
  app.openAPIRegistry.registerPath(route);
  const types = mediaTypes(route.responses);
  app.on(route.method.toUpperCase(), route.path.replaceAll(/\{(\w+)\}/g, ":$1"), (c) => {
    requireAcceptable(c, types);
    return handler(c);
  });
}

/** What a route answers with where it succeeds. */
function mediaTypes(responses: RouteConfig["responses"]): string[] {
  return Object.entries(responses).flatMap(([status, response]) =>
    status.startsWith("2") && "content" in response ? Object.keys(response.content ?? {}) : [],
  );
}

/** The problem documents a route may answer with, for its description. */
export function problems(...statuses: number[]): RouteConfig["responses"] {
  return Object.fromEntries(
    statuses.map((status) => [
      status,
      {
        description: PROBLEMS[status] ?? "Problem",
        content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } } },
      },
    ]),
  );
}

const PROBLEMS: Record<number, string> = {
  400: "The request could not be read",
  401: "A valid key is needed",
  403: "This key may not do that",
  404: "No such record, or a mistyped id",
  406: "None of the accepted media types can be served",
  409: "The request contradicts what is stored",
  413: "More than 4 MiB or 200 000 values",
  415: "Neither JSON nor a form",
  422: "The content does not fit, or holds no result",
  501: "This form of answer is not made here",
  429: "Too many at once: try again after Retry-After seconds",
};
