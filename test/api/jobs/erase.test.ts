import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { eraseFromTrial } from "../../../api/jobs/erase.ts";
import { newKey, problemOf, type StoredTrial } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { bearer, sampleLog, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

const read = async (id: string) => (await (await target.request(`/v1/trials/${id}`)).json()) as StoredTrial;

test("what is erased is gone from every table, and the hash of the record stays", async () => {
  const secrets = [
    "Quay 7 flat 3",
    "on my neighbour's shelf",
    "unit with the cracked lid",
    "my sister helped",
    "sister.csv",
    "her own blend",
  ];
  const [label, position, specimen, note, fileName, blend] = secrets;
  const form = new FormData();
  const trial = sampleTrial(1, {
    room: { label, volume: { value: 30, unit: "m3" } },
    counters: [{ id: "c1", principle: "optical_counter", position }],
    aerosol: { kind: "other", note: blend },
    specimen,
    note,
    runs: [{ role: "full_log", file: "log" }],
  });
  form.set("trial", JSON.stringify(trial));
  form.set("log", new Blob([toCsv(sampleLog(1).series)]), fileName);
  const key = await newKey(target);
  const answer = await target.request("/v1/trials", { method: "POST", body: form, headers: bearer(key) });
  const stored = (await answer.json()) as StoredTrial;
  expect(answer.status).toBe(201);
  for (const secret of secrets) expect(JSON.stringify(stored)).toContain(secret);

  const client = createClient({ url: target.databaseUrl });
  const everything = async () => {
    const tables = (await client.execute("SELECT name FROM sqlite_master WHERE type = 'table'")).rows.map(({ name }) =>
      String(name),
    );
    const rows = await Promise.all(
      tables.map(async (table) => (await client.execute(`SELECT * FROM "${table}"`)).rows),
    );
    return JSON.stringify(rows);
  };
  expect(await everything()).toContain(note); // in words, and there alone
  const { rows } = await client.execute("SELECT json FROM trial_revisions");
  for (const secret of secrets) expect(String(rows[0]!.json)).not.toContain(secret);

  const count = await eraseFromTrial(
    target.deps.db,
    stored.id,
    "words",
    "asked to by the submitter",
    "2026-11-01T00:00:00.000Z",
  );
  expect(count).toBe(6);
  const after = await everything();
  for (const secret of secrets) expect(after).not.toContain(secret);
  const reread = await read(stored.id);
  expect(reread).toMatchObject({ sha256: stored.sha256, note: null, specimen: null, room: { label: null } });
  expect(reread.analysis).toEqual(stored.analysis);

  await eraseFromTrial(target.deps.db, stored.id, "files", "held an address", "2026-11-01T00:00:00.000Z");
  const gone = await problemOf(await target.request(`/v1/trials/${stored.id}/runs/0/file`), 410);
  expect(gone.detail).toContain("held an address");
  expect((await target.request(`/v1/trials/${stored.id}/runs/0/series.csv`)).status).toBe(200);
  await eraseFromTrial(target.deps.db, stored.id, "series", "held an address", "2026-11-01T00:00:00.000Z");
  await problemOf(await target.request(`/v1/trials/${stored.id}/runs/0/series.csv`), 410);
  expect((await target.request(`/trials/${stored.id}`)).status).toBe(200);
  client.close();
});
