import { afterAll, beforeAll, expect, test } from "vitest";
import { fillDemo } from "../../../seed/fill-demo.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { PUBLIC_URL } from "../../support/public-url.ts";

/** Of addresses that differ in their ids and values alone, as many are followed. */
const OF_A_KIND = 3;

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
  await fillDemo(target.request);
});
afterAll(() => target.stop());

test("every link of every page leads somewhere, and every fragment to a place in its page", async () => {
  const seen = new Map<string, { kind: string; from: string }>();
  const bodies = new Map<string, string>();
  const fragments: { path: string; id: string; from: string }[] = [];
  const kinds = new Map<string, number>();
  const waiting = [{ path: "/", from: "" }];
  const broken: string[] = [];
  for (let next = waiting.shift(); next; next = waiting.shift()) {
    const { path, from } = next;
    const kind = kindOf(path);
    if (seen.has(path) || (kinds.get(kind) ?? 0) >= OF_A_KIND) continue;
    seen.set(path, { kind, from });
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    const answer = await follow(path);
    if (!answer.ok) broken.push(`${answer.status} ${path} linked from ${from}`);
    if (!answer.headers.get("Content-Type")?.startsWith("text/html")) continue;
    const html = await answer.text();
    bodies.set(path, html);
    for (const link of linksOf(html)) {
      const { pathname, search, hash, origin } = new URL(link, `http://here${path}`);
      if (origin !== "http://here") continue;
      if (hash !== "") fragments.push({ path: pathname + search, id: decodeURIComponent(hash.slice(1)), from: path });
      waiting.push({ path: pathname + search, from: path });
    }
  }
  const lost = fragments.filter(({ path, id }) => bodies.has(path) && !bodies.get(path)!.includes(`id="${id}"`));
  broken.push(...lost.map(({ path, id, from }) => `no #${id} in ${path}, linked from ${from}`));
  expect(broken, broken.join("\n")).toEqual([]);
  const pages = new Set([...bodies.keys()].map((path) => path.split(/[?/]/)[1]));
  const all = ["", "submit", "room", "compare", "plan", "method", "safety", "programs", "problems", "log"];
  expect([...pages].sort()).toEqual([...all, "configurations", "entries", "trials", "pinned"].sort());
}, 60_000);

/** As a browser asks. */
const headers = { Accept: "text/html,application/xhtml+xml,application/xml;q=0.9,image/avif,image/webp,*/*;q=0.8" };

async function follow(path: string): Promise<Response> {
  const answer = await target.request(path, { headers });
  const to = answer.headers.get("Location");
  if (answer.status < 300 || answer.status >= 400 || to === null) return answer;
  return target.request(to, { headers });
}

const LINKED = /<(?:a|link|script|img)\b[^>]*?\s(?:href|src)="([^"]*)"/g;
/** What link previews ask for: under the address where others find the registry. */
const TOLD = /<meta property="og:(?:url|image)" content="([^"]*)"/g;

function linksOf(html: string): string[] {
  return [...html.matchAll(LINKED), ...html.matchAll(TOLD)].map(([, link]) =>
    link!
      .replaceAll("&amp;", "&")
      .replaceAll("&quot;", '"')
      .replaceAll("&#39;", "'")
      .replace(PUBLIC_URL, "http://here"),
  );
}

/** An address without its ids and without the values it asks with. */
function kindOf(path: string): string {
  const { pathname, searchParams } = new URL(path, "http://here");
  return `${pathname
    .replace(/(?<=-)[0-9A-Z]{11}\b/g, "*")
    .replace(/\/runs\/\d+/, "/runs/*")
    .replace(/(ent-\*\/\w+)\/\d+/, "$1/*")}?${[...searchParams.keys()].sort()}`;
}
