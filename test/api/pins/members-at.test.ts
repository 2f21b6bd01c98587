import { createClient } from "@libsql/client";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { listPins, pinnedAnswers } from "../../support/pinned-answers.ts";
import { operate } from "../../support/random-registry.ts";

let target: InProcess;
let pins: string[];
beforeAll(async () => {
  target = await startInProcess();
  await operate(target, 6, 60);
  pins = (await listPins(target.databaseUrl)).filter((path) => path.includes("ent-"));
}, 60_000);
afterAll(() => target.stop());

test("the members of every figure there ever was are found again, and hash to what stood in it", async () => {
  expect(pins.length).toBeGreaterThan(150);
  expect((await pinnedAnswers(target.request, pins)).size).toBe(pins.length);
}, 30_000);

test("a figure whose members do not hash to it is not given out", async () => {
  const [, , entry, basis, seq] = pins.at(-1)!.split("/");
  const client = createClient({ url: target.databaseUrl });
  await client.execute({
    sql: "UPDATE pooled SET members_hash = ? WHERE entry = ? AND basis = ? AND seq = ?",
    args: ["0".repeat(64), entry!, basis!, Number(seq)],
  });
  client.close();
  expect((await target.request(`/v1${pins.at(-1)}`)).status).toBe(500);
});
