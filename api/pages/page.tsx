import { html } from "hono/html";
import type { Child } from "hono/jsx";

/** The frame of every page. Works without scripts; there are none. */
export function Page({ title, children }: { title: string; children: Child }) {
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>{title}</title>
        <link rel="icon" type="image/svg+xml" href="/motefall.svg" />
        <link rel="stylesheet" href="/motefall.css" />
      </head>
      <body>
        <header class="top">
          <a href="/" class="home">
            Motefall
          </a>
          <nav aria-label="Pages">
            <a href="/">Clean air delivery rates</a>
            <a href="/openapi.json">API description</a>
          </nav>
        </header>
        <main>{children}</main>
        <footer>
          <p>
            Measurements by volunteers, not a certification and no medical advice. A room cleaner is no substitute for
            source capture, ventilation or a fitted respirator where wood dust, silica or fumes are made.
          </p>
        </footer>
      </body>
    </html>
  );
}

/** An HTML answer. */
export async function htmlAnswer(page: Child | Promise<Child>, status = 200): Promise<Response> {
  const body = await html`<!doctype html>${page}`;
  return new Response(String(body), { status, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

/** Said wherever a record of the demonstration is shown. */
export function InventedNote() {
  return (
    <p class="invented" role="note">
      Invented for demonstration: these are simulated logs of things and people that do not exist.
    </p>
  );
}
