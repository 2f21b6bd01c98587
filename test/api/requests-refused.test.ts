import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, problemOf, store } from "../support/client.ts";
import { type InProcess, startInProcess } from "../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../support/sample-trial.ts";

let target: InProcess;
let key: string;
let trial: string;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target);
  trial = (await store(target, key, sampleTrial(1))).id;
});
afterAll(() => target.stop());

describe("Accept", () => {
  const get = (path: string, Accept: string) => target.request(path, { headers: { Accept } });

  test.each(["application/json", "application/*", "*/*", "text/html, */*;q=0.1", "", "APPLICATION/JSON; q=0.5"])(
    "%j is served",
    async (accept) => expect((await get("/v1/leaderboard", accept)).status).toBe(200),
  );

  test.each(["application/xml", "text/html", "application/json;q=0", "application/json;q=0, */*"])(
    "%j gets 406",
    async (accept) => {
      expect((await problemOf(await get("/v1/configurations", accept), 406)).detail).toContain("application/json");
    },
  );

  test("of several types the one liked best comes", async () => {
    const typeOf = async (accept: string) => (await get("/v1/leaderboard", accept)).headers.get("Content-Type");
    expect(await typeOf("text/csv;q=0.9, application/json;q=0.8")).toContain("text/csv");
    expect(await typeOf("application/json;q=0, */*")).toContain("text/csv");
    expect(await typeOf("application/x-ndjson, */*;q=0.1")).toContain("application/x-ndjson");
    expect(await typeOf("*/*")).toContain("application/json");
  });

  test("a series is text/csv", async () => {
    expect((await get(`/v1/trials/${trial}/runs/0/series.csv`, "text/csv")).status).toBe(200);
    await problemOf(await get(`/v1/trials/${trial}/runs/0/series.csv`, "application/json"), 406);
  });

  test("nothing is stored where the answer could not be read", async () => {
    const configuration = { ...SAMPLE_CONFIGURATION, title: "Never stored", arrangement: "never stored" };
    const headers = { ...bearer(key), Accept: "application/xml" };
    await problemOf(await target.request("/v1/configurations", json(configuration, headers)), 406);
    await problemOf(await target.request("/v1/trials", json(sampleTrial(2, { configuration }), headers)), 406);
    expect(await (await target.request("/v1/configurations?q=never")).json()).toEqual({ configurations: [] });
  });
});

describe("queries", () => {
  test("a parameter given twice is refused, one left empty asks for nothing", async () => {
    const problem = await problemOf(await target.request("/v1/leaderboard?band=mass&band=dust"), 422);
    expect(problem.errors).toEqual([{ detail: "The query parameter band is given 2 times.", pointer: "#/band" }]);
    expect(await leaderboard(target, "?band=&kind=&unpaired=&cursor=&limit=&unit=")).toEqual(await leaderboard(target));
  });

  test("signs of a LIKE pattern stand for themselves", async () => {
    const search = async (q: string) => {
      const answer = await target.request(`/v1/configurations?q=${encodeURIComponent(q)}`);
      return ((await answer.json()) as { configurations: unknown[] }).configurations.length;
    };
    expect([await search("%"), await search("cfg-%"), await search("_"), await search("PANEL")]).toEqual([0, 0, 0, 1]);
  });
});

describe("pages answer problems as pages:", () => {
  test.each([
    ["/trials/trl-00000000000", 404],
    ["/entries/%3Cscript%3E", 404],
    ["/?band=2-3", 422],
  ])("%s", async (path, status) => {
    const answer = await target.request(path);
    expect([answer.status, answer.headers.get("Content-Type")]).toEqual([status, "text/html; charset=utf-8"]);
    expect(answer.headers.get("Content-Security-Policy")).toContain("default-src 'none'");
    const page = await answer.text();
    expect(page).toContain("<h1>");
    expect(page).not.toContain("<script>");
  });

  test("a wrong method keeps its Allow; the API stays JSON even for a browser", async () => {
    const answer = await target.request("/", { method: "POST" });
    expect([answer.status, answer.headers.get("Allow")]).toEqual([405, "GET, HEAD, OPTIONS"]);
    const headers = { Accept: "text/html" };
    expect((await target.request("/nowhere", { headers })).headers.get("Content-Type")).toContain("text/html");
    await problemOf(await target.request("/nowhere"), 404);
    await problemOf(await target.request("/v1/trials/trl-00000000000", { headers: { Accept: "*/*" } }), 404);
  });

  test("a counter of unstated principle has a page", async () => {
    const { id } = await store(target, key, sampleTrial(3, { counters: [{ id: "c1" }] }));
    expect((await target.request(`/trials/${id}`)).status).toBe(200);
  });
});

test("derived_from is pointed at where it stands", async () => {
  const configuration = { ...SAMPLE_CONFIGURATION, arrangement: "derived", derived_from: "cfg-00000000000" };
  const alone = await problemOf(await target.request("/v1/configurations", json(configuration, bearer(key))), 422);
  expect(alone.errors![0]!.pointer).toBe("#/derived_from");
  const within = await problemOf(
    await target.request("/v1/trials", json(sampleTrial(4, { configuration }), bearer(key))),
    422,
  );
  expect(within.errors![0]!.pointer).toBe("#/configuration/derived_from");
});
