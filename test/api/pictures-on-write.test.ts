import { expect, test } from "vitest";
import { createApp } from "../../api/app.ts";
import { findPicture } from "../../db/pictures.ts";
import { newKey, store } from "../support/client.ts";
import { openTemporary } from "../support/in-process.ts";
import { sampleTrial } from "../support/sample-trial.ts";

test("the card of a trial is drawn when it is stored, after the answer, and a failure there harms nothing", async () => {
  const { deps, discard } = await openTemporary();
  const jobs: (() => Promise<unknown>)[] = [];
  let fails = false;
  const render = async (svg: string) => (fails ? Promise.reject(new Error("no ink")) : deps.render(svg));
  const app = createApp(() => ({ ...deps, render, later: (job) => jobs.push(job) }));
  const target = { request: async (path: string, init?: RequestInit) => app.request(path, init), stop: discard };
  const key = await newKey(target);
  const { id } = await store(target, key, sampleTrial(1));
  const pin = (trial: string) => `/pinned/${trial}/1/1.0.0/0.1-1.0`;
  expect(jobs).toHaveLength(1);
  expect(await findPicture(deps.db, pin(id), "light")).toBeNull();
  await jobs[0]!();
  const kept = await findPicture(deps.db, pin(id), "light");
  const asked = await (await target.request(`${pin(id)}/card.png`)).arrayBuffer();
  expect(new Uint8Array(asked)).toEqual(kept);

  await store(target, key, sampleTrial(1), 200); // the same again
  expect(jobs).toHaveLength(1);
  const second = await store(target, key, sampleTrial(2));
  fails = true;
  await jobs[1]!(); // logged, not thrown
  fails = false;
  expect((await target.request(`${pin(second.id)}/card.png`)).status).toBe(200); // drawn when it is asked for
  await discard();
});
