import { parseFragment } from "parse5";
import { afterAll, beforeAll, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import type { Method } from "../../../analysis/method.ts";
import { METHOD_VERSION } from "../../../analysis/method-version.ts";
import { poolCadr } from "../../../analysis/pooling/pool-cadr.ts";
import { createApp } from "../../../api/app.ts";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { range } from "../../../api/pages/figures.ts";
import { BASE } from "../../../api/pages/styles/base.ts";
import { THEMES } from "../../../api/pictures/themes.ts";
import { toPoolMember } from "../../../api/pool-entry.ts";
import type { PinnedEntry, PinnedResult } from "../../../api/wire/pinned.ts";
import { listPinnedMembers } from "../../../db/pinned-members.ts";
import { newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { listPins } from "../../support/pinned-answers.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial, withoutFlow } from "../../support/sample-trial.ts";

let target: InProcess;
let keys: string[];
let stored: StoredTrial[];
let decays: string;
let rooms: string;
let page: string;
const HOSTILE = `</title><script>alert(1)</script> & "class="axis"' \ufffe]]> 漢字`;

beforeAll(async () => {
  target = await startInProcess();
  keys = [await newKey(target, "tester <one>"), await newKey(target), await newKey(target)];
  const configuration = { ...withoutFlow(SAMPLE_CONFIGURATION), title: HOSTILE };
  stored = [];
  for (const [i, key] of keys.entries()) {
    stored.push(
      await store(target, key, sampleTrial(i + 1, { configuration, interest: i === 0 ? "paid" : "independent" })),
    );
  }
  decays = `/pinned/${stored[0]!.id}/1/1.0.0/0.1-1.0/decay.svg`;
  page = (await listPins(target.databaseUrl))
    .filter((pin) => /ent-.*\/all\//.test(pin))
    .sort(bySeq)
    .at(-1)!;
  rooms = `${page}/rooms.svg`;
}, 60_000);
afterAll(() => target.stop());

const bySeq = (a: string, b: string) => Number(a.split("/").at(-1)) - Number(b.split("/").at(-1));
const read = async (path: string) => {
  const answer = await target.request(path);
  const svg = await answer.text();
  expect([answer.status, answer.ok ? "" : svg]).toEqual([200, ""]);
  return { answer, svg };
};
/** All elements of an SVG with their attributes. */
function elementsOf(svg: string) {
  const found: { tag: string; attributes: Map<string, string>; text: string }[] = [];
  type Node = {
    nodeName: string;
    attrs?: { name: string; value: string }[];
    childNodes?: Node[];
    value?: string;
  };
  const textOf = (node: Node): string => node.value ?? (node.childNodes ?? []).map(textOf).join("");
  const walk = (node: Node) => {
    if (node.attrs) {
      const attributes = new Map(node.attrs.map(({ name, value }) => [name, value]));
      found.push({ tag: node.nodeName, attributes, text: textOf(node) });
    }
    for (const child of node.childNodes ?? []) walk(child);
  };
  walk(parseFragment(svg) as unknown as Node);
  return found;
}

test.each([
  ["decays", () => decays, "light"],
  ["decays", () => decays, "dark"],
  ["rooms", () => rooms, "light"],
  ["rooms", () => rooms, "dark"],
] as const)("a plot of %s stands alone and is kept for a day, in each theme: %s %s", async (_, path, theme) => {
  const { answer, svg } = await read(`${path()}?theme=${theme}`);
  expect(answer.headers.get("Content-Type")).toBe("image/svg+xml; charset=utf-8");
  expect(answer.headers.get("Cache-Control")).toBe("public, max-age=86400");
  const again = await target.request(`${path()}?theme=${theme}`, {
    headers: { "If-None-Match": answer.headers.get("ETag")! },
  });
  expect(again.status).toBe(304);
  expect(Buffer.byteLength(svg)).toBeLessThan(100_000);
  const elements = elementsOf(svg);
  expect(elements[0]!.tag).toBe("svg");
  const tags = new Set(elements.map(({ tag }) => tag));
  expect([...tags].sort()).toEqual(["desc", "g", "path", "rect", "svg", "text", "title"]);
  for (const { attributes } of elements) {
    expect([...attributes.keys()].filter((name) => /^(class|style|href|xlink|src|on)/.test(name))).toEqual([]);
    for (const [name, value] of attributes) if (name !== "xmlns") expect(value).not.toMatch(/url\(|var\(|https?:/);
  }
  const colours = new Set(elements.flatMap(({ attributes }) => [attributes.get("fill"), attributes.get("stroke")]));
  const known: (string | undefined)[] = [undefined, "none", ...Object.values(THEMES[theme])];
  expect([...colours].filter((colour) => !known.includes(colour))).toEqual([]);
  expect(colours).toContain(THEMES[theme].paper);
  const [title, desc] = ["title", "desc"].map((tag) => elements.find((each) => each.tag === tag)!.text);
  expect(title).toContain("</title><script>alert(1)</script>");
  expect(desc).toContain("m³/h");
  expect(svg).not.toMatch(/<script|\ufffe/);
});

test("colours of pictures are those of the pages, light and dark", () => {
  const [light = "", dark = ""] = BASE.split("prefers-color-scheme: dark");
  for (const [name, colour] of Object.entries(THEMES.light)) expect(light).toContain(`--${name}: ${colour};`);
  for (const [name, colour] of Object.entries(THEMES.dark)) expect(dark).toContain(`--${name}: ${colour};`);
});

test("decays are those of the pinned result: each log, its fit, what was left out, who paid", async () => {
  const elements = elementsOf((await read(decays)).svg);
  const words = elements.filter(({ tag }) => tag === "text").map(({ text }) => text);
  const all = words.join(" ");
  expect(all).toContain("who paid: the test was paid for");
  expect(words).toContain("Log 1: clean air before the aerosol");
  expect(words).toContain("Log 2: natural decay, cleaner off");
  expect(words).toContain("Log 3: total decay, cleaner on");
  expect(elements.filter(({ attributes }) => attributes.get("stroke-dasharray") === "9 3")).toHaveLength(1);
  const dots = elements.filter(({ attributes }) => attributes.get("stroke-linecap") === "round");
  const drawn = dots.map(({ attributes }) => attributes.get("d")!.split("M").length - 1);
  expect(drawn).toEqual([30, 150, 150].map((rows) => expect.closeTo(rows, -1)));
});

test("rooms are the members as they were pooled: their rates, the mean, and where another room is expected", async () => {
  const { pinned } = (await (await target.request(`/v1${page}`)).json()) as { pinned: PinnedEntry };
  const named = pinned.members.map((each) => {
    return {
      trial: each.trial,
      revision: each.revision,
      methodVersion: each.method_version,
      roomRevision: each.room_revision,
    };
  });
  const members = await listPinnedMembers(target.deps.db.read, pinned.band, named);
  const pooled = poolCadr(members.map(toPoolMember), pinned.spread);
  expect(pooled.value).toBe(pinned.cadr.value);
  const all = elementsOf((await read(rooms)).svg)
    .filter(({ tag }) => tag === "text")
    .map(({ text }) => text);
  expect(all).toContain(range(pinned.cadr));
  expect(all).toContain("tester <one>: Back room");
  expect(all.filter((words) => /^1 test, paired; /.test(words.replaceAll("\u00a0", " ")))).toHaveLength(3);
  expect(all).toContain("In another room");
});

test("a corrected volume leaves the plot of rooms as it was; one who paid, corrected, is said above the same figures", async () => {
  const before = (await read(rooms)).svg;
  const room = (stored[0] as unknown as { room: { id: string } }).room.id;
  const post = async (path: string, body: object) => {
    const answer = await target.request(path, json(body, bearer(keys[0]!)));
    expect(answer.status).toBe(201);
  };
  await post(`/v1/rooms/${room}/revisions`, { volume: { value: 36, unit: "m3", u: 0.5 }, reason: "a wardrobe" });
  expect((await read(rooms)).svg).toBe(before);
  await post(`/v1/trials/${stored[0]!.id}/revisions`, { interest: "independent", reason: "I paid it back" });
  const after = (await read(rooms)).svg;
  const figures = (svg: string) => [...svg.matchAll(/[\d.]+ (?:±|\()[^<]*/g)].map(([text]) => text);
  expect(figures(after)).toEqual(figures(before));
  expect(figures(before).length).toBeGreaterThan(2);
  expect(after).toContain("Who paid was corrected");
  expect((await read(decays)).svg).toContain("who paid: the test was paid for");
  expect((await read(decays.replace("/1/1.0.0", "/2/1.0.0"))).svg).toContain("who paid: bought or built by the tester");
});

test.each([
  ["many windows", 40, /Drawn: logs 1 to [3-7] of 10\./],
  ["long logs", 0, /Drawn: logs 1 to 8 of 10\./],
])("with %s a plot stays under 100 KB, and what is not drawn is said", async (_, windows, said) => {
  const [, natural, total] = sampleTrial(77).runs;
  const values = Array.from({ length: 3000 }, (_, i) => 900 * Math.exp(-i / 900) * (1 + 0.05 * Math.sin(i * i)));
  const t = { unit: "s" as const, values: values.map((_, i) => i) };
  const long = {
    role: "total",
    windows: Array.from({ length: windows }, (_, n) => ({ phase: "total", n, from: 70 * n, to: 70 * n + 65 })),
    marks: Array.from({ length: windows }, (_, n) => ({ event: "setting_changed", t: 70 * n })),
    series: { t, channels: [{ ...total!.series.channels[0]!, values }] },
  };
  const trial = await store(
    target,
    keys[1]!,
    sampleTrial(77 + windows, {
      configuration: withoutFlow(SAMPLE_CONFIGURATION),
      runs: [natural, total, ...Array(8).fill(long)],
    }),
  );
  const { svg } = await read(`/pinned/${trial.id}/1/1.0.0/0.1-1.0/decay.svg`);
  expect(Buffer.byteLength(svg)).toBeLessThan(100_000);
  expect(svg).toMatch(said);
});

test("erased readings are said not to be drawn, and the figure stays", async () => {
  const { svg: before } = await read(decays);
  const erase = (what: "series" | "words") =>
    eraseFromTrial(target.deps.db, stored[0]!.id, what, "asked for", new Date().toISOString());
  await erase("series");
  const { svg } = await read(decays);
  expect(svg.match(/Not drawn\. The series was erased on [^<]*: asked for\. What was found by it/g)).toHaveLength(3);
  const figure = /Clean air delivery rate for [^<]+/;
  expect(figure.exec(svg)![0]).toBe(figure.exec(before)![0]);
});

test("a result by an older method says by which one readings are left out, and its fits stay", async () => {
  const early: Method = {
    version: "0.9.0",
    ordinal: 0,
    analyse: (trial) => ({ ...analyseTrial(trial), methodVersion: "0.9.0" }),
  };
  const app = createApp(() => ({ ...target.deps, method: early }));
  const older = { ...target, request: async (path: string, init?: RequestInit) => app.request(path, init) };
  const trial = await store(older, keys[2]!, sampleTrial(88, { configuration: withoutFlow(SAMPLE_CONFIGURATION) }));
  const { svg } = await read(`/pinned/${trial.id}/1/0.9.0/0.1-1.0/decay.svg`);
  expect(svg).toContain(`Readings are left out as method ${METHOD_VERSION} has it.`);
  expect((await read(decays)).svg).not.toContain("Readings are left out as");
});

test("a page leads to its plot, and one of the other kind is not found", async () => {
  const html = await (await target.request(page)).text();
  expect(html).toContain(`href="${rooms}"`);
  expect(await (await target.request(decays.replace("/decay.svg", ""))).text()).toContain(
    `href="${decays}?theme=dark"`,
  );
  await problemOf(await target.request(decays.replace("decay.svg", "rooms.svg")), 404);
  await problemOf(await target.request(rooms.replace("rooms.svg", "decay.svg")), 404);
  await problemOf(await target.request(decays.replace("/1/1.0.0", "/7/1.0.0")), 404);
});

test("a withdrawn one says so", async () => {
  const answer = await target.request(
    `/v1/trials/${stored[1]!.id}/withdrawal`,
    json({ reason: "x" }, bearer(keys[1]!)),
  );
  expect(answer.status).toBe(200);
  const { withdrawn } = (await (
    await target.request(`/v1/pinned/${stored[1]!.id}/1/1.0.0/0.1-1.0`)
  ).json()) as PinnedResult;
  const { svg } = await read(decays.replace(stored[0]!.id, stored[1]!.id));
  expect(svg).toContain(`Withdrawn on ${withdrawn!.at.slice(0, 10)}`);
  expect(svg).toContain('text-decoration="line-through"');
});
