import type { MiddlewareHandler } from "hono";
import type { Env } from "../environment.ts";
import { htmlAnswer, Page } from "./page.tsx";
import { type Reader, readerOf } from "./reader.ts";

/** Problems of pages are pages too: people read them. Everywhere else they stay JSON. */
export const problemPages: MiddlewareHandler<Env> = async (c, next) => {
  await next();
  const isProblem = c.res.headers.get("Content-Type")?.startsWith("application/problem+json");
  if (!isProblem || !asksForPage(c.req.path, c.req.header("Accept") ?? "")) return;
  const { title, detail } = (await c.res.json()) as { title: string; detail: string };
  const page = await htmlAnswer(c, <ProblemPage reader={readerOf(c)} title={title} detail={detail} />, c.res.status);
  const allow = c.res.headers.get("Allow");
  if (allow) page.headers.set("Allow", allow);
  c.res = undefined; // otherwise the JSON's headers would be kept
  c.res = page;
};

const PAGE = /^\/($|(entries|trials|configurations|submit|room|compare|plan|method|safety|programs)(\/|$))/;

function asksForPage(path: string, accept: string): boolean {
  if (/^\/(v1\/|openapi\.json|healthz|readyz)/.test(path)) return false;
  return PAGE.test(path) || accept.includes("text/html");
}

function ProblemPage({ reader, title, detail }: { reader: Reader; title: string; detail: string }) {
  return (
    <Page reader={reader} title={`${title} · Motefall`}>
      <h1>{title}</h1>
      <p>
        <bdi>{detail}</bdi>
      </p>
      <p>
        <a href="/">To the list of clean air delivery rates</a>
      </p>
    </Page>
  );
}
