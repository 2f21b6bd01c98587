import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CADR, sampleLog, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("$name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target, "Ebb");
  });
  afterAll(() => target.stop());

  test("analyses one CSV with nothing but the volume, and stores nothing", async () => {
    const form = new FormData();
    form.set("file", new Blob([toCsv(sampleLog(1).series)]), "log.csv");
    form.set("volume", "30m3");
    const answer = await target.request("/v1/analyses", { method: "POST", body: form });
    const analysis = (await answer.json()) as StoredTrial["analysis"];
    expect(answer.status).toBe(200);
    const { cadr } = analysis.results[0]!;
    expect(cadr.unit).toBe("m3/h");
    expect(cadr.low).toBeLessThan(SAMPLE_CADR);
    expect(cadr.high).toBeGreaterThan(SAMPLE_CADR);
    expect(analysis.read[0]!.columns!.map(({ role }) => role)).toEqual(["time", "channel"]);
    expect((await leaderboard(target)).entries).toEqual([]);
  });

  test("stores a trial for good: Location, record, hash, leaderboard, entry", async () => {
    const answer = await target.request("/v1/trials", json(sampleTrial(10), bearer(key)));
    const stored = (await answer.json()) as StoredTrial;
    expect(answer.status).toBe(201);
    expect(answer.headers.get("Location")).toBe(`/v1/trials/${stored.id}`);
    expect(stored.id).toMatch(/^trl-[0-9A-HJKMNP-TV-Z]{11}$/);
    const read = (await (await target.request(`/v1/trials/${stored.id}`)).json()) as StoredTrial;
    expect(read).toEqual(stored);
    expect(read).toMatchObject({
      state: "listed",
      invented: false,
      setting: "High",
      note: "an invented trial of the tests",
    });
    expect(read.room).toMatchObject({ label: "Back room" });
    const result = read.analysis.results.find(({ band }) => band.name === "0.1-1.0")!;
    expect(result.paired).toBe(true);
    expect(result.band.coverage).toBeCloseTo(Math.log(1 / 0.3) / Math.log(10), 6);
    expect(result.cadr.low).toBeLessThan(SAMPLE_CADR);
    expect(result.cadr.high).toBeGreaterThan(SAMPLE_CADR);

    const board = await leaderboard(target);
    expect(board.entries).toHaveLength(1);
    const [entry] = board.entries;
    expect(entry).toMatchObject({ rank: 1, setting: "High", trials: 1, rooms: 1, interest: { independent: 1 } });
    expect(entry!.cadr.value).toBeCloseTo(result.cadr.value, 9);
    expect(entry!.cost).toEqual({ value: 62, currency: "EUR", date: "2026-09-01" });
    expect(board.as_of).toBe(read.created_at);
    const one = (await (await target.request(`/v1/entries/${entry!.id}`)).json()) as {
      bases: { all: { trials: number } };
    };
    expect(one.bases.all.trials).toBe(1);
  });

  test("the same content again is the same trial; the same Idempotency-Key with other content is a conflict", async () => {
    const first = await store(target, key, sampleTrial(11));
    const again = await target.request("/v1/trials", json(sampleTrial(11), bearer(key)));
    expect(again.status).toBe(200);
    expect(again.headers.get("Location")).toBe(`/v1/trials/${first.id}`);
    const reordered = Object.fromEntries(Object.entries(sampleTrial(11)).reverse());
    expect((await store(target, key, reordered, 200)).id).toBe(first.id);

    const idempotent = { ...bearer(key), "Idempotency-Key": "tide-12" };
    expect((await target.request("/v1/trials", json(sampleTrial(12), idempotent))).status).toBe(201);
    expect((await target.request("/v1/trials", json(sampleTrial(12), idempotent))).status).toBe(200);
    const refused = await target.request("/v1/trials", json(sampleTrial(13), idempotent));
    expect((await problemOf(refused, 409)).code).toBe("idempotency-conflict");
  });

  test("files come back byte for byte, as attachments that no browser runs", async () => {
    const csv = toCsv(sampleLog(14).series);
    const trial = sampleTrial(14, { runs: [{ role: "full_log", file: "log" }] });
    const form = new FormData();
    form.set("trial", JSON.stringify(trial));
    form.set("log", new Blob([csv]), "<script>.html");
    const answer = await target.request("/v1/trials", { method: "POST", body: form, headers: bearer(key) });
    const stored = (await answer.json()) as StoredTrial & { runs: { file: { sha256: string; name: string } }[] };
    expect(answer.status).toBe(201);
    const file = await target.request(`/v1/trials/${stored.id}/runs/0/file`);
    expect(await file.text()).toBe(csv);
    expect(stored.runs[0]!.file.sha256).toBe(createHash("sha256").update(csv).digest("hex"));
    expect(stored.runs[0]!.file.name).toBe("<script>.html");
    expect(file.headers.get("Content-Disposition")).toMatch(/^attachment; filename="trl-[0-9A-Z]+-run-0\.bin"$/);
    expect(file.headers.get("Content-Type")).toBe("application/octet-stream");
    expect(file.headers.get("X-Content-Type-Options")).toBe("nosniff");
    const series = await target.request(`/v1/trials/${stored.id}/runs/0/series.csv`);
    expect((await series.text()).split("\n")[0]).toMatch(/^t_s,n1/);
  });

  test("a withdrawn trial stays readable and counts no more; only its submitter or the operator may", async () => {
    const stored = await store(target, key, sampleTrial(15, { setting: "low" }));
    const path = `/v1/trials/${stored.id}/withdrawal`;
    const reason = { reason: "the window was open" };
    await problemOf(await target.request(path, json(reason)), 401);
    await problemOf(await target.request(path, json(reason, bearer(await newKey(target)))), 403);
    expect((await leaderboard(target)).entries.map(({ setting }) => setting)).toContain("Low");
    const answer = await target.request(path, json(reason, bearer(key)));
    expect(answer.status).toBe(200);
    const withdrawn = (await answer.json()) as StoredTrial;
    expect(withdrawn).toMatchObject({ state: "withdrawn", withdrawn: { reason: "the window was open" } });
    expect((await leaderboard(target)).entries.map(({ setting }) => setting)).not.toContain("Low");
    expect((await target.request(path, json(reason, bearer(key)))).status).toBe(200);
    const history = ((await (await target.request(`/v1/trials/${stored.id}`)).json()) as StoredTrial).history;
    expect(history.map(({ kind }) => kind)).toEqual(["trial-stored", "trial-withdrawn"]);

    const other = await store(target, key, sampleTrial(16));
    const byOperator = await target.request(
      `/v1/trials/${other.id}/withdrawal`,
      json(reason, bearer(settings.operatorKey)),
    );
    expect(byOperator.status).toBe(200);
  });

  test("a stored natural run serves another trial of the same room", async () => {
    const first = await store(target, key, sampleTrial(17));
    const runs = sampleTrial(18).runs.filter(({ role }) => role !== "natural");
    const linked = await store(
      target,
      key,
      sampleTrial(18, { runs: [...runs, { role: "natural", from_run: `${first.id}/runs/1` }] }),
    );
    const natural = ({ analysis }: StoredTrial) => analysis.results[0]!.natural.k;
    expect(natural(linked).value).toBeCloseTo(natural(first).value, 3); // each has a background run of its own
    const elsewhere = sampleTrial(19, {
      room: { label: "Loft", volume: { value: 30, unit: "m3" } },
      runs: [...runs, { role: "natural", from_run: `${first.id}/runs/1` }],
    });
    const refused = await problemOf(await target.request("/v1/trials", json(elsewhere, bearer(key))), 422);
    expect(refused.errors![0]!.pointer).toBe("#/runs/2/from_run");
  });

  test("a room label keeps its volume, for its own submitter only", async () => {
    const loft = (value: number) => ({ room: { label: "Drying loft", volume: { value, unit: "m3", u: 0.5 } } });
    await store(target, key, sampleTrial(20, loft(30)));
    const refused = await target.request("/v1/trials", json(sampleTrial(21, loft(31)), bearer(key)));
    expect((await problemOf(refused, 409)).code).toBe("room-volume-conflict");
    await store(target, await newKey(target), sampleTrial(21, loft(31)));
  });

  test("a key opens nothing once revoked", async () => {
    const second = await newKey(target);
    const prefix = second.split("_")[1]!;
    await problemOf(await target.request(`/v1/keys/${prefix}`, { method: "DELETE", headers: bearer(key) }), 403);
    expect((await target.request(`/v1/keys/${prefix}`, { method: "DELETE", headers: bearer(second) })).status).toBe(
      204,
    );
    await problemOf(await target.request("/v1/trials", json(sampleTrial(22), bearer(second))), 401);
  });

  test("ids forgive case and the letters O, I and L, and tell a mistype", async () => {
    const { id } = await store(target, key, sampleTrial(23));
    const sloppy = id.toLowerCase().replaceAll("0", "o").replaceAll("1", "l").replace("tr1-", "trl-");
    expect((await target.request(`/v1/trials/${sloppy}`)).status).toBe(200);
    const last = id.at(-1) === "7" ? "8" : "7";
    const problem = await problemOf(await target.request(`/v1/trials/${id.slice(0, -1)}${last}`), 404);
    expect(problem.code).toBe("mistyped-id");
    expect(problem.detail).toContain("check character");
  });
});
