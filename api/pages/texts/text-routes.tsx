import { findSpread } from "../../../db/spreads.ts";
import type { App } from "../../endpoint.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { MethodPage } from "./method/method-page.tsx";
import { ProblemsPage } from "./problems/problems-page.tsx";
import { SafetyPage } from "./safety/safety-page.tsx";

/** Pages to read: the method, cautions, and what programs and their writers need. */
export function addTextPages(app: App): void {
  app.get("/method", async (c) => {
    const spread = await findSpread(c.var.deps.db.read);
    return htmlAnswer(c, <MethodPage reader={readerOf(c)} spread={spread} />);
  });
  app.get("/safety", (c) => htmlAnswer(c, <SafetyPage reader={readerOf(c)} />));
  app.get("/problems", (c) => htmlAnswer(c, <ProblemsPage reader={readerOf(c)} />));
}
