import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { rebuild } from "../../../api/jobs/rebuild.ts";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

const DERIVED = {
  trial_states: "trial",
  pooled: "entry, basis, seq",
  standings: "entry, basis",
};

test("derived tables come out of a rebuild as they stood, byte for byte", async () => {
  const random = createRandom(20261003);
  const chance = (n: number) => Math.floor(n * random.uniform());
  const keys = [await newKey(target), await newKey(target)];
  const standing: { id: string; key: string }[] = [];
  for (let i = 0; i < 40; i++) {
    const key = keys[chance(2)]!;
    if (standing.length > 3 && chance(4) === 0) {
      const [{ id, key: owner }] = standing.splice(chance(standing.length), 1) as [{ id: string; key: string }];
      await target.request(`/v1/trials/${id}/withdrawal`, json({ reason: "by chance" }, bearer(owner)));
      continue;
    }
    const changes = { setting: chance(2) ? "low" : "high", invented: chance(3) === 0 };
    standing.push({ id: (await store(target, key, sampleTrial(300 + i, changes))).id, key });
  }
  const client = createClient({ url: target.databaseUrl });
  const dump = async () => {
    const tables = Object.entries(DERIVED).map(
      async ([table, order]) => (await client.execute(`SELECT * FROM ${table} ORDER BY ${order}`)).rows,
    );
    return JSON.stringify(await Promise.all(tables));
  };
  const before = await dump();
  expect(JSON.parse(before).map((rows: unknown[]) => rows.length)).toEqual([expect.any(Number), expect.any(Number), 16]);
  await client.execute("UPDATE trial_states SET state = 'pending'");
  await client.execute("DELETE FROM standings");
  await client.execute("DELETE FROM pooled WHERE seq % 2 = 0");
  expect(await dump()).not.toBe(before);
  await rebuild(target.deps.db);
  expect(await dump()).toBe(before);
  client.close();
});
