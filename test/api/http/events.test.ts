import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { newKey, problemOf, store } from "../../support/client.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

interface Events {
  readonly events: readonly { readonly seq: number; readonly kind: string; readonly subject: string }[];
  readonly next: string | null;
}

describe.each(targets())("the log: $name", ({ start }) => {
  let target: Target;
  beforeAll(async () => {
    target = await start();
  });
  afterAll(() => target.stop());
  const read = async (path: string) => (await (await target.request(path)).json()) as Events;

  test("every step stands there once, newest first, page by page, and about one record alone", async () => {
    const key = await newKey(target);
    const trial = await store(target, key, sampleTrial(8401));
    await target.request(`/v1/trials/${trial.id}/withdrawal`, json({ reason: "a <b>test</b>" }, bearer(key)));
    const all = await read("/v1/events");
    expect(all.events.map(({ seq }) => seq)).toEqual(all.events.map((_, i) => all.events.length - i));
    expect(all.events[0]).toMatchObject({ kind: "trial-withdrawn", subject: trial.id, reason: "a <b>test</b>" });
    expect(all.next).toBeNull();

    const pages: Events["events"][number][] = [];
    for (let path: string | null = "/v1/events?limit=2"; path; ) {
      const { events, next } = await read(path);
      pages.push(...events);
      path = next && new URL(next).pathname + new URL(next).search;
    }
    expect(pages).toEqual(all.events);
    const own = await read(`/v1/events?subject=${trial.id}`);
    expect(own.events.map(({ kind }) => kind)).toEqual(["trial-withdrawn", "trial-stored"]);
    await problemOf(await target.request("/v1/events?before=now"), 422);

    const page = await (await target.request("/log")).text();
    expect(page).toContain("a &lt;b&gt;test&lt;/b&gt;");
    expect(page.indexOf("was withdrawn")).toBeLessThan(page.indexOf("was stored"));
  });
});
