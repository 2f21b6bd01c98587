import { OpenAPIHono } from "@hono/zod-openapi";
import { cors } from "hono/cors";
import { requestId } from "hono/request-id";
import { secureHeaders } from "hono/secure-headers";
import { allowedMethods } from "./allowed-methods.ts";
import type { App } from "./endpoint.ts";
import type { Env, Provide } from "./environment.ts";
import { failure } from "./failure.ts";
import { addPages } from "./pages/pages.tsx";
import { problemPages } from "./pages/problem-page.tsx";
import { problem } from "./problem.ts";
import { addAmendments } from "./routes/amendments.ts";
import { addAnalyses } from "./routes/analyses.ts";
import { addCitations } from "./routes/citations.ts";
import { addComparison } from "./routes/comparison.ts";
import { addConfigurationChanges } from "./routes/configuration-changes.ts";
import { addConfigurations } from "./routes/configurations.ts";
import { addDumps } from "./routes/dumps.ts";
import { addEntries } from "./routes/entries.ts";
import { addEvents } from "./routes/events.ts";
import { addFilters } from "./routes/filters.ts";
import { addHealth } from "./routes/health.ts";
import { addKeys } from "./routes/keys.ts";
import { addLeaderboard } from "./routes/leaderboard.ts";
import { addModeration } from "./routes/moderation.ts";
import { addOEmbed } from "./routes/oembed.ts";
import { addOpenApi } from "./routes/openapi.ts";
import { addPinned } from "./routes/pinned.ts";
import { addQuestions } from "./routes/questions.ts";
import { addRooms } from "./routes/rooms.ts";
import { addSizing } from "./routes/sizing.ts";
import { addTestPlans } from "./routes/test-plans.ts";
import { addTrials } from "./routes/trials.ts";

/** The application, the same on Node and in the Worker. */
export function createApp(provide: Provide): App {
  const app: App = new OpenAPIHono<Env>({ strict: false });

  app.use(requestId());
  app.use(
    cors({
      origin: "*",
      allowMethods: ["GET", "HEAD", "POST", "DELETE"],
      exposeHeaders: ["Location", "Link", "Retry-After", "ETag", "Repr-Digest"],
      allowHeaders: ["Authorization", "Content-Type", "Content-Encoding", "Idempotency-Key", "If-None-Match"],
    }),
  );
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        connectSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
      },
      crossOriginResourcePolicy: "cross-origin", // answers and pictures are there to be used elsewhere
      referrerPolicy: "no-referrer",
    }),
  );
  app.use(problemPages);
  app.use(async (c, next) => {
    c.set("deps", await provide(c.env));
    await next();
  });

  addAnalyses(app);
  addKeys(app);
  addTrials(app);
  addAmendments(app);
  addConfigurations(app);
  addConfigurationChanges(app);
  addQuestions(app);
  addModeration(app);
  addRooms(app);
  addLeaderboard(app);
  addEntries(app);
  addEvents(app);
  addDumps(app);
  addOEmbed(app);
  addFilters(app);
  addCitations(app);
  addComparison(app);
  addSizing(app);
  addTestPlans(app);
  addPinned(app);
  addHealth(app);
  addPages(app);
  addOpenApi(app);

  app.notFound((c) => {
    const { publicUrl } = c.var.deps;
    const allowed = allowedMethods(app, c.req.path);
    if (allowed.length === 0) return problem("unknown-path", publicUrl, `Nothing is at ${c.req.path.slice(0, 200)}.`);
    const refused = problem("wrong-method", publicUrl, `${c.req.path} takes ${allowed.join(", ")}.`);
    refused.headers.set("Allow", allowed.join(", "));
    return refused;
  });
  app.onError((error, c) => failure(error, c.var.deps?.publicUrl ?? ""));
  return app;
}
