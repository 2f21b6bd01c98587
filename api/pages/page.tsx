import { html } from "hono/html";
import type { Child } from "hono/jsx";
import type { Ctx } from "../environment.ts";
import { unitWords } from "./figures.ts";
import { inOtherUnit, type Reader, unitCookie } from "./reader.ts";

interface Props {
  readonly title: string;
  readonly reader: Reader;
  /** A script of this page alone; it works without. */
  readonly script?: string | null;
  /** What its head holds besides. */
  readonly head?: Child;
  readonly children: Child;
}

/** The pages in reading order. Names are the trade's own words. */
const PAGES = [
  ["/", "Clean air delivery rates"],
  ["/submit", "Add a test"],
  ["/room", "My room"],
  ["/compare", "Compare"],
  ["/plan", "Plan a test"],
  ["/method", "Method"],
  ["/safety", "Safety"],
  ["/programs", "For programs"],
] as const;

/** What a clean air delivery rate is not about. */
export const PARTICLES_ONLY =
  "A clean air delivery rate is about particles: gases, solvent and glue vapours are not measured here, and pass a filter for particles.";

/** The frame of every page: it works without scripts. */
export function Page({ title, reader, script, head, children }: Props) {
  const path = reader.href.split("?")[0];
  const other = inOtherUnit(reader);
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>{title}</title>
        <link rel="icon" type="image/svg+xml" href="/motefall.svg" />
        <link rel="stylesheet" href="/motefall.css" />
        {head}
        {script ? <script type="module" src={script} /> : null}
      </head>
      <body>
        <a class="skip" href="#content">
          To the content
        </a>
        <header class="top">
          <a href="/" class="home">
            Motefall
          </a>
          <details class="menu">
            <summary>Menu</summary>
            <nav aria-label="Pages">
              {PAGES.map(([href, words]) => (
                <a href={href} aria-current={href === path ? "page" : undefined}>
                  {words}
                </a>
              ))}
            </nav>
          </details>
        </header>
        <main id="content">{children}</main>
        <footer>
          <p class="unprinted">
            Flows in {unitWords(reader.flow)}; <a href={other.href}>show them in {unitWords(other.unit)}</a>.
          </p>
          <p>
            {PARTICLES_ONLY} Where wood dust, silica or fumes are made, catch them at the tool, ventilate and wear a
            fitted respirator: a room cleaner stands in for none of these. <a href="/safety">Safety</a>
          </p>
          <p>
            Measurements by volunteers, not a certification and no medical advice.{" "}
            <a href="/log">What happened to records</a>
          </p>
        </footer>
      </body>
    </html>
  );
}

/** An HTML answer, which also remembers the unit its address asks for. */
export async function htmlAnswer(c: Ctx, page: Child | Promise<Child>, status = 200): Promise<Response> {
  const body = await html`<!doctype html>${page}`;
  const headers = new Headers({
    "Content-Type": "text/html; charset=utf-8",
    "Cache-Control": "no-cache",
    Vary: "Cookie",
  });
  const cookie = unitCookie(c);
  if (cookie) headers.append("Set-Cookie", cookie);
  return new Response(String(body), { status, headers });
}

/** Said wherever a record of the demonstration is shown. */
export function InventedNote({ some = false }: { readonly some?: boolean }) {
  return (
    <p class="invented" role="note">
      {some ? "What is marked invented is for demonstration: " : "Invented for demonstration: "}
      simulated logs of things and people that do not exist.
    </p>
  );
}
