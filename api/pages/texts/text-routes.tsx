import { html, raw } from "hono/html";
import { findSpread } from "../../../db/spreads.ts";
import type { App } from "../../endpoint.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { MethodPage } from "./method/method-page.tsx";
import { ProblemsPage } from "./problems/problems-page.tsx";
import type { OpenApiDocument } from "./programs/openapi-document.ts";
import { ProgramsPage } from "./programs/programs-page.tsx";
import { Reference } from "./programs/reference.tsx";
import { SafetyPage } from "./safety/safety-page.tsx";

/** Pages to read: the method, cautions, and what programs and their writers need. */
export function addTextPages(app: App): void {
  app.get("/method", async (c) => {
    const spread = await findSpread(c.var.deps.db.read);
    return htmlAnswer(c, <MethodPage reader={readerOf(c)} spread={spread} />);
  });
  app.get("/safety", (c) => htmlAnswer(c, <SafetyPage reader={readerOf(c)} />));
  app.get("/problems", (c) => htmlAnswer(c, <ProblemsPage reader={readerOf(c)} />));

  let reference: string | undefined;
  app.get("/programs", async (c) => {
    // The very document that is served, by the way it is served; it changes with the code alone.
    reference ??= await referenceOf(await app.request("/openapi.json", {}, c.env));
    const { publicUrl } = c.var.deps;
    return htmlAnswer(c, <ProgramsPage reader={readerOf(c)} publicUrl={publicUrl} reference={raw(reference)} />);
  });
}

async function referenceOf(answer: Response): Promise<string> {
  if (!answer.ok) throw new Error(`/openapi.json answers ${answer.status}`);
  const document = (await answer.json()) as OpenApiDocument;
  return String(await html`${<Reference document={document} />}`);
}
