import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { rebuild } from "../../../api/jobs/rebuild.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { operate } from "../../support/random-registry.ts";
import { tableContents } from "../../support/table-contents.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

test("derived tables come out of a rebuild as they stood, byte for byte", async () => {
  const counts = await operate(target, 3, 130);
  expect(Object.keys(counts).sort()).toEqual([
    "amend",
    "ask",
    "correct",
    "decide",
    "learn",
    "merge",
    "reanalyse",
    "revise",
    "store",
    "withdraw",
  ]);
  const client = createClient({ url: target.databaseUrl });
  const before = await tableContents(client);
  const bases = new Set(before.pooled!.map((row) => (JSON.parse(row) as { basis: string }).basis));
  expect([...bases].sort()).toEqual(["all", "independent", "independent_paired", "paired"]);
  expect(before.spreads!.length).toBeGreaterThan(1); // else nothing was learnt, and nothing applied
  expect(before.method_adoptions!.length).toBe(2);
  expect(before.events!.some((row) => row.includes("method 1.1.0, revision 1"))).toBe(true); // one came late
  await client.execute("UPDATE trial_states SET state = 'pending'");
  await client.execute("DELETE FROM standings");
  await client.execute("DELETE FROM pooled WHERE seq % 2 = 0");
  await client.execute("UPDATE pooled SET cadr_m3_per_h = 1, u = 1 WHERE trials > 0");
  await client.execute("DELETE FROM configuration_traits");
  expect(await tableContents(client)).not.toEqual(before);
  await rebuild(target.deps.db);
  expect(await tableContents(client)).toEqual(before);
  client.close();
}, 60_000);
