import { gzipSync } from "node:zlib";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { newKey, problemOf } from "../../support/client.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

const DECAY = Array.from({ length: 300 }, (_, i) => 800 * Math.exp(-i / 60) + 2);
const TIMES = DECAY.map((_, i) => i * 5);

const series = (changes: object = {}) => ({
  t: { unit: "s", values: TIMES },
  channels: [{ id: "n1", quantity: "number", unit: "1/cm3", from_um: 0.3, to_um: 1, values: DECAY }],
  ...changes,
});
const channel = (changes: object) => series({ channels: [{ ...series().channels[0], ...changes }] });
const trial = (run: object, changes: object = {}) =>
  sampleTrial(1, { runs: [{ role: "full_log", ...run }], ...changes });
const room = (it: object) => sampleTrial(1, { room: it });

/** Bodies that fit no schema or make no series: what is wrong, the body, and where the pointer must lead. */
const UNFIT: [string, unknown, string][] = [
  ["a number for a body", 7, "#"],
  ["null", null, "#"],
  ["an array", [], "#"],
  ["an empty object", {}, "#/configuration"],
  ["runs of the wrong type", sampleTrial(1, { runs: "none" }), "#/runs"],
  ["no runs", sampleTrial(1, { runs: [] }), "#/runs"],
  ["an unknown field", sampleTrial(1, { volum: 3 }), "#/volum"],
  ["an unknown interest", sampleTrial(1, { interest: "fun" }), "#/interest"],
  ["a text value", trial({ series: channel({ values: DECAY.map(String) }) }), "#/runs/0/series/channels/0/values/0"],
  ["unequal columns", trial({ series: channel({ values: DECAY.slice(1) }) }), "#/runs/0/series/channels/0/values"],
  [
    "two channels of one name",
    trial({ series: series({ channels: [...series().channels, ...series().channels] }) }),
    "#/runs/0/series/channels/1/id",
  ],
  ["a constant time", trial({ series: series({ t: { unit: "s", values: TIMES.map(() => 5) } }) }), "#/runs/0/series/t"],
  [
    "a time that runs back and forth",
    trial({ series: series({ t: { unit: "s", values: TIMES.map((t, i) => t * (i % 2 ? -1 : 1)) } }) }),
    "#/runs/0/series/t",
  ],
  [
    "stamps that are none",
    trial({ series: series({ t: { unit: "datetime", values: TIMES.map((t) => `day ${t}`) } }) }),
    "#/runs/0/series/t",
  ],
  ["an unknown unit", trial({ series: channel({ unit: "bananas" }) }), "#/runs/0/series/channels/0/unit"],
  ["a unit of something else", trial({ series: channel({ unit: "m3" }) }), "#/runs/0/series/channels/0/unit"],
  ["an AQI for a quantity", trial({ series: channel({ quantity: "aqi" }) }), "#/runs/0/series/channels/0/quantity"],
  ["a band's name for a channel", trial({ series: channel({ id: "mass" }) }), "#/runs/0/series/channels/0/id"],
  ["a run of two sources", trial({ series: series(), file: "log" }), "#/runs/0/series"],
  ["a run of no source", trial({}), "#/runs/0/series"],
  ["a file that was not sent", trial({ file: "log" }), "#/runs/0/file"],
  ["a counter nobody stated", trial({ series: series(), counter: "c9" }), "#/runs/0/counter"],
  [
    "a mark that is no time",
    trial({ series: series(), marks: [{ event: "cleaner_on", t: "noon" }] }),
    "#/runs/0/marks/0/t",
  ],
  [
    "a window that ends before it begins",
    trial({ series: series(), windows: [{ phase: "total", from: 500, to: 100 }] }),
    "#/runs/0/windows/0/to",
  ],
  ["a from_run that is none", trial({ role: "natural", from_run: "yesterday" }), "#/runs/0/from_run"],
  ["a volume of 0", room({ volume: { value: 0, unit: "m3" } }), "#/room/volume/value"],
  ["a volume below 0", room({ volume: { value: -30, unit: "m3" } }), "#/room/volume/value"],
  ["a volume in metres", room({ volume: { value: 30, unit: "m" } }), "#/room/volume/unit"],
  ["no volume", room({ label: "Back room" }), "#/room/volume"],
  ["a volume and sides", room({ volume: { value: 30, unit: "m3" }, height: { value: 2, unit: "m" } }), "#/room/volume"],
  [
    "more displaced than there is",
    room({
      length: { value: 3, unit: "m" },
      width: { value: 3, unit: "m" },
      height: { value: 2, unit: "m" },
      displaced_volume: { value: 20, unit: "m3" },
    }),
    "#/room/displaced_volume",
  ],
  [
    "a commercial thing without a maker",
    sampleTrial(1, {
      configuration: { title: "Box", kind: "commercial", parts: [{ part: "fan", count: 1, description: "fan" }] },
    }),
    "#/configuration/maker",
  ],
  ["an unknown setting", sampleTrial(1, { setting: "turbo" }), "#/setting"],
];

describe.each(targets())("$name refuses, says where, and stores nothing:", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());
  afterEach(async () => {
    const configurations = await (await target.request("/v1/configurations")).json();
    expect(configurations).toEqual({ configurations: [] }); // the first row any stored trial would have left
  });
  const post = (body: unknown) => target.request("/v1/trials", json(body, bearer(key)));

  test.each(UNFIT)("%s", async (_, body, pointer) => {
    const problem = await problemOf(await post(body), 422);
    expect(problem.errors!.map((error) => error.pointer)).toContain(pointer);
  });

  test("text that is not JSON, and 1e400", async () => {
    const send = (body: string) => target.request("/v1/trials", { ...json(0, bearer(key)), body });
    for (const text of ["", "{", "hello", "{'a':1}", "\u0000"]) await problemOf(await send(text), 400);
    const huge = JSON.stringify(trial({ series: series() })).replace("802", "1e400");
    const problem = await problemOf(await send(huge), 422);
    expect(problem.errors![0]!.pointer).toBe("#/runs/0/series/channels/0/values/0");
  });

  test("an unknown media type, and an unknown content coding", async () => {
    await problemOf(
      await target.request("/v1/trials", {
        method: "POST",
        headers: { ...bearer(key), "Content-Type": "text/csv" },
        body: "a",
      }),
      415,
    );
    await problemOf(await target.request("/v1/trials", json({}, { ...bearer(key), "Content-Encoding": "br" })), 415);
  });

  test("5 MiB, and a gzip bomb", async () => {
    const long = { ...json(0, bearer(key)), body: `"${"a".repeat(5 * 1024 * 1024)}"` };
    const problem = await problemOf(await target.request("/v1/trials", long), 413);
    expect(problem.detail).toContain("Crop");
    const bomb = gzipSync(Buffer.alloc(200 * 1024 * 1024));
    expect(bomb.length).toBeLessThan(300_000);
    const zipped = { ...json(0, { ...bearer(key), "Content-Encoding": "gzip" }), body: bomb };
    await problemOf(await target.request("/v1/trials", zipped), 413);
    await problemOf(await target.request("/v1/trials", { ...zipped, body: bomb.subarray(0, 100) }), 400);
  });

  test("more than 200 000 values", async () => {
    const values = Array.from({ length: 100_001 }, (_, i) => i);
    const many = series({ t: { unit: "s", values }, channels: [{ ...series().channels[0], values }] });
    const problem = await problemOf(await post(trial({ series: many })), 413);
    expect(problem.detail).toContain("200000");
  });

  test.each([
    ["an empty file", ""],
    ["binary", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 1, 2, 255, 254, 0, 3])],
    ["words", "all quiet in the harbour tonight"],
    ["only an AQI column", `time,AQI\n${TIMES.map((t, i) => `${t},${DECAY[i]}`).join("\n")}`],
    ["a constant time", `time,pm2.5\n${DECAY.map((y) => `5,${y}`).join("\n")}`],
    ["a garbled time", `time,pm2.5\n${DECAY.map((y, i) => `${i % 2 ? -i : i},${y}`).join("\n")}`],
  ])("a file that is %s", async (_, content) => {
    const form = new FormData();
    form.set("trial", JSON.stringify(trial({ file: "log" })));
    form.set("log", new Blob([content]), "log.csv");
    const answer = await target.request("/v1/trials", { method: "POST", headers: bearer(key), body: form });
    expect((await problemOf(answer, 422)).errors![0]!.pointer).toBe("#/runs/0/file");
  });

  test("an AQI column that is asked for", async () => {
    const form = new FormData();
    const columns = { t: { column: "time", unit: "s" }, channels: [{ column: "AQI", quantity: "mass" }] };
    form.set("trial", JSON.stringify(trial({ file: "log", columns })));
    form.set(
      "log",
      new Blob([`time,AQI,pm2.5\n${TIMES.map((t, i) => `${t},${DECAY[i]},${DECAY[i]}`).join("\n")}`]),
      "log.csv",
    );
    const answer = await target.request("/v1/trials", { method: "POST", headers: bearer(key), body: form });
    expect((await problemOf(answer, 422)).detail.toLowerCase()).toContain("index");
  });

  test("a log without a decay, with typed refusals", async () => {
    const flat = DECAY.map((_, i) => 20 + (i % 3));
    const problem = await problemOf(await post(trial({ series: channel({ values: flat }) })), 422);
    expect(problem.code).toBe("no-result");
    expect(problem.refusals!.length).toBeGreaterThan(0);
    for (const { code } of problem.refusals!) expect(code).toMatch(/^[a-z-]+$/);
  });

  test("unknown ids, no key, a mistyped key, a stranger's key", async () => {
    await problemOf(await post(sampleTrial(1, { configuration: "cfg-00000000000" })), 404);
    await problemOf(await target.request("/v1/trials/nonsense"), 404);
    await problemOf(await target.request("/v1/entries/trl-00000000000"), 404);
    await problemOf(await target.request("/v1/nowhere"), 404);
    const none = await target.request("/v1/trials", json(sampleTrial(1)));
    expect(none.headers.get("WWW-Authenticate")).toContain("Bearer");
    await problemOf(none, 401);
    await problemOf(await target.request("/v1/trials", json(sampleTrial(1), bearer(`${key.slice(0, -2)}00`))), 401);
    await problemOf(await target.request("/v1/trials", json(sampleTrial(1), { Authorization: "Basic a" })), 401);
  });

  test("a wrong method, with Allow", async () => {
    const answer = await target.request("/v1/trials", { method: "PUT" });
    expect(answer.headers.get("Allow")).toBe("OPTIONS, POST");
    await problemOf(answer, 405);
    const read = await target.request("/v1/leaderboard", { method: "DELETE" });
    expect(read.headers.get("Allow")).toBe("GET, HEAD, OPTIONS");
    await problemOf(read, 405);
  });

  test("a query nobody knows, and a band that is none", async () => {
    expect((await problemOf(await target.request("/v1/leaderboard?colour=blue"), 422)).detail).toContain("colour");
    expect((await problemOf(await target.request("/v1/leaderboard?band=2-3"), 422)).errors![0]!.pointer).toBe("#/band");
    await problemOf(await target.request("/v1/leaderboard?unit=m"), 422);
    await problemOf(await target.request("/v1/leaderboard?cursor=x"), 422);
    await problemOf(await target.request("/v1/leaderboard?limit=0"), 422);
  });
});
