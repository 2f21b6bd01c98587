import { parse } from "parse5";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { newKey, problemOf, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

/** The properties and names of a page's meta elements. */
function metaOf(html: string): Map<string, string> {
  const found = new Map<string, string>();
  const walk = (node: {
    childNodes?: unknown[];
    tagName?: string;
    attrs?: { name: string; value: string }[];
  }): void => {
    const of = (name: string) => node.attrs?.find((attribute) => attribute.name === name)?.value;
    if (node.tagName === "meta") found.set(of("property") ?? of("name") ?? "", of("content") ?? "");
    if (node.tagName === "link") found.set(`link ${of("type") ?? of("rel")}`, of("href") ?? "");
    for (const child of node.childNodes ?? []) walk(child as typeof node);
  };
  walk(parse(html) as never);
  return found;
}

describe.each(targets())("pictures: $name", ({ start }) => {
  let target: Target;
  let key: string;
  let pinned: string;
  let trial: string;
  const title = `<b>Box</b> & "quotes" 漢字 \u202eevil ${"long words ".repeat(7)}`.trim();
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
    const stored = await store(
      target,
      key,
      sampleTrial(8601, {
        configuration: { ...SAMPLE_CONFIGURATION, title: title.replace("\u202e", "") },
        invented: true,
      }),
    );
    trial = stored.id;
    pinned = `/pinned/${trial}/1/1.0.0/0.1-1.0`;
  });
  afterAll(() => target.stop());

  test.each(["light", "dark"])("a card is a PNG of 1200 × 630 under 100 KB, drawn once: %s", async (theme) => {
    const answer = await target.request(`${pinned}/card.png?theme=${theme}`);
    expect([answer.status, answer.headers.get("Content-Type")]).toEqual([200, "image/png"]);
    const bytes = Buffer.from(await answer.arrayBuffer());
    expect(bytes.length).toBeLessThan(100_000);
    const { width, height, data } = PNG.sync.read(bytes);
    expect([width, height]).toEqual([1200, 630]);
    expect(data[0]).toBe(theme === "light" ? 0xfb : 0x16); // its ground
    expect(new Set(data).size).toBeGreaterThan(50); // letters, not an empty ground
    const again = Buffer.from(await (await target.request(`${pinned}/card.png?theme=${theme}`)).arrayBuffer());
    expect(again.equals(bytes)).toBe(true);
  });

  test("as SVG it holds the words as words, and what must not be missed", async () => {
    const svg = await (await target.request(`${pinned}/card.svg`)).text();
    expect(svg).toContain("&#60;b&#62;Box&#60;/b&#62; &#38; &#34;quotes&#34; ??");
    expect(svg).not.toContain("<b>");
    expect(svg).toContain("Invented for demonstration");
    expect(svg).toContain("Who paid: bought or built by the tester");
    expect(svg).toContain(pinned);
    const badge = await (await target.request(`${pinned}/badge.svg`)).text();
    expect(badge).toMatch(/invented, CADR [\d.]+ ± [\d.]+ m³\/h, for particles of 0\.1–1\.0 µm, one test/);
  });

  test("a withdrawn one is another picture, struck through", async () => {
    const gone = await store(target, key, sampleTrial(8602));
    const path = `/pinned/${gone.id}/1/1.0.0/0.1-1.0`;
    const before = Buffer.from(await (await target.request(`${path}/card.png`)).arrayBuffer());
    await target.request(`/v1/trials/${gone.id}/withdrawal`, json({ reason: "a test" }, bearer(key)));
    const after = Buffer.from(await (await target.request(`${path}/card.png`)).arrayBuffer());
    expect(after.equals(before)).toBe(false);
    expect(await (await target.request(`${path}/card.svg`)).text()).toContain("line-through");
    expect(await (await target.request(`${path}/badge.svg`)).text()).toContain("withdrawn, CADR");
  });

  test("pages say by link previews and oEmbed what they show", async () => {
    for (const path of [`/trials/${trial}`, pinned]) {
      const meta = metaOf(await (await target.request(path)).text());
      expect(meta.get("og:title")).toContain("Clean air delivery rate (CADR) of <b>Box</b>");
      expect(meta.get("og:url")).toBe(`${settings.publicUrl}${path}`);
      expect(meta.get("og:description")).toContain("One test; the 95 % interval is about this room");
      const image = new URL(meta.get("og:image")!);
      const picture = await target.request(image.pathname);
      expect(picture.headers.get("Content-Type")).toBe("image/png");
      const embed = new URL(meta.get("link application/json+oembed")!);
      const answer = await target.request(embed.pathname + embed.search);
      expect(await answer.json()).toMatchObject({
        version: "1.0",
        type: "link",
        title: meta.get("og:title"),
        thumbnail_url: meta.get("og:image"),
        thumbnail_width: 1200,
        thumbnail_height: 630,
      });
    }
    const url = encodeURIComponent(`${settings.publicUrl}/trials/${trial}`);
    expect(await (await target.request(`/oembed?url=${url}&maxwidth=400`)).json()).not.toHaveProperty("thumbnail_url");
    expect((await target.request(`/oembed?url=${url}&format=xml`)).status).toBe(501);
    await problemOf(await target.request("/oembed?url=https://elsewhere.example/trials/x"), 404);
  });

  test("what is not there has no picture", async () => {
    expect((await target.request(`/pinned/${trial}/2/1.0.0/0.1-1.0/card.png`)).status).toBe(404);
    expect((await target.request("/entries/ent-00000000000/badge.svg")).status).toBe(404);
  });
});
