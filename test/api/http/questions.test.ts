import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { leaderboard, newKey, problemOf, type StoredTrial, store } from "../../support/client.ts";
import { settings } from "../../support/in-process.ts";
import { bearer, json, sampleTrial } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

interface Asked {
  readonly questions: readonly {
    readonly id: string;
    readonly question: string | null;
    readonly revision: number;
    readonly answers: readonly { readonly author: string; readonly answer: string | null }[];
  }[];
}

describe.each(targets())("questions: $name", ({ start }) => {
  let target: Target;
  let key: string;
  beforeAll(async () => {
    target = await start();
    key = await newKey(target);
  });
  afterAll(() => target.stop());

  const ask = (trial: string, question: string) => target.request(`/v1/trials/${trial}/questions`, json({ question }));
  const read = async (trial: string) =>
    (await (await target.request(`/v1/trials/${trial}`)).json()) as StoredTrial & Asked;

  test("anyone asks, the submitter answers, and the trial counts as before", async () => {
    const trial = await store(target, key, sampleTrial(8101));
    const before = await leaderboard(target);
    const asked = await ask(trial.id, "Was the window shut?\nI ask since natural decay is fast.");
    expect(asked.status).toBe(201);
    const { questions } = (await asked.json()) as Asked;
    expect(questions).toMatchObject([
      { question: "Was the window shut?\nI ask since natural decay is fast.", revision: 1, answers: [] },
    ]);
    expect(await read(trial.id)).toMatchObject({ state: "questioned", questions });
    expect((await leaderboard(target)).entries).toEqual(before.entries);

    const answers = `/v1/questions/${questions[0]!.id}/answers`;
    await problemOf(await target.request(answers, json({ answer: "Yes." })), 401);
    await problemOf(await target.request(answers, json({ answer: "Yes." }, bearer(await newKey(target)))), 403);
    expect((await target.request(answers, json({ answer: "It was." }, bearer(key)))).status).toBe(201);
    expect(
      (await target.request(answers, json({ answer: "Listed again." }, bearer(settings.operatorKey)))).status,
    ).toBe(201);
    const now = await read(trial.id);
    expect(now.questions[0]!.answers).toMatchObject([
      { author: (now.submitter as { id: string }).id, answer: "It was." },
      { author: "operator", answer: "Listed again." },
    ]);
    expect(now.state).toBe("questioned"); // until an operator lists it
    expect(now.history.map(({ kind }) => kind)).toEqual([
      "trial-stored",
      "trial-questioned",
      "question-answered",
      "question-answered",
    ]);
  });

  test("a flood is refused, and what was asked stays", async () => {
    const trial = await store(target, key, sampleTrial(8102));
    for (let n = 1; n <= 20; n++) expect((await ask(trial.id, `question ${n}`)).status).toBe(201);
    const refused = await ask(trial.id, "one more");
    expect(refused.headers.get("Retry-After")).toBe("3600");
    expect((await problemOf(refused, 429)).code).toBe("too-many-questions");
    expect((await read(trial.id)).questions).toHaveLength(20);
    const again = await ask(trial.id, "question 7"); // it waits already
    expect([again.status, ((await again.json()) as Asked).questions.length]).toEqual([200, 20]);
    const decision = { subject: trial.id, action: "list", reason: "seen, none of them matters" };
    const listed = await target.request("/v1/moderation", json(decision, bearer(settings.operatorKey)));
    expect(listed.status).toBe(200);
    expect((await ask(trial.id, "after they were laid to rest")).status).toBe(201);
  });

  test("a question that is none is refused with its place", async () => {
    const trial = await store(target, key, sampleTrial(8103));
    for (const question of ["", "  ", "x".repeat(2001), 7, null]) {
      const problem = await problemOf(
        await target.request(`/v1/trials/${trial.id}/questions`, json({ question })),
        422,
      );
      expect(problem.errors![0]!.pointer).toBe("#/question");
    }
    await problemOf(await ask("trl-00000000000", "?"), 404);
    expect((await read(trial.id)).state).toBe("listed");
  });
});
