import { sha256Hex } from "../../../db/content-hash.ts";
import type { App } from "../../endpoint.ts";

/** `GET /submit.js`: the script of the page where a test is added, kept for good under the address of its content. */
export function addSubmitScript(app: App): void {
  app.get("/submit.js", async (c) => {
    const { submitScript } = c.var.deps;
    if (submitScript === null) return c.notFound();
    const current = (await addressOf(submitScript)).endsWith(`?v=${c.req.query("v")}`);
    const headers = {
      "Content-Type": "text/javascript; charset=utf-8",
      "Cache-Control": current ? "public, max-age=31536000, immutable" : "no-cache",
    };
    return new Response(submitScript, { headers });
  });
}

/** Where a page finds its script, null where none was built: `/submit.js?v=` and 12 hex digits of its SHA-256. */
export async function submitScriptAddress(script: string | null): Promise<string | null> {
  return script === null ? null : addressOf(script);
}

let known: { readonly script: string; readonly address: string } | null = null;

/** One script is served for as long as a process lives, so it is hashed once. */
async function addressOf(script: string): Promise<string> {
  if (known?.script !== script) known = { script, address: `/submit.js?v=${(await sha256Hex(script)).slice(0, 12)}` };
  return known.address;
}
