import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("moderation: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  const decide = (subject: string, action: string, reason = "seen by a person") =>
    target.request("/v1/moderation", json({ subject, action, reason }, bearer(settings.operatorKey)));
  const decided = async (subject: string, action: string) => {
    const answer = await decide(subject, action);
    expect(answer.status).toBe(200);
    return (await answer.json()) as StoredTrial;
  };
  /** The list without the instant it is of. */
  const rows = async () => (await leaderboard(target)).entries;

  test("a held trial counts no more, and as before once it is listed again", async () => {
    await store(target, key, sampleTrial(8201));
    const one = await rows();
    const second = await store(target, await newKey(target), sampleTrial(8202));
    const both = await rows();
    expect(both[0]!.trials).toBe(2);

    const held = await decided(second.id, "hold");
    expect(held.state).toBe("pending");
    expect(held.history.at(-1)).toMatchObject({ kind: "trial-held", actor: "operator", reason: "seen by a person" });
    expect(await rows()).toEqual(one);
    expect((await decided(second.id, "hold")).history).toHaveLength(held.history.length); // already so
    expect((await decided(second.id, "list")).state).toBe("listed");
    expect(await rows()).toEqual(both);
  });

  test("a question is laid to rest by listing; what is withdrawn stays so", async () => {
    const trial = await store(target, key, sampleTrial(8203));
    await target.request(`/v1/trials/${trial.id}/questions`, json({ question: "Why?" }));
    expect((await decided(trial.id, "list")).state).toBe("listed");
    expect((await decided(trial.id, "withdraw")).state).toBe("withdrawn");
    expect((await problemOf(await decide(trial.id, "list"), 409)).code).toBe("withdrawn");
    expect((await problemOf(await decide(trial.id, "hold"), 409)).code).toBe("withdrawn");
  });

  test("what cannot be decided is refused with its place", async () => {
    const trial = await store(target, key, sampleTrial(8204));
    expect((await problemOf(await decide(trial.id, "delete"), 422)).errors![0]!.pointer).toBe("#/action");
    expect((await problemOf(await decide(trial.id, "hold", ""), 422)).errors![0]!.pointer).toBe("#/reason");
    expect((await problemOf(await decide(trial.configuration.id, "hold"), 422)).errors![0]!.pointer).toBe("#/subject");
  });
});
