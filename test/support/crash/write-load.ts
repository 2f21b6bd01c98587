import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../sample-trial.ts";

/** What the service said it had stored. */
export interface Acknowledged {
  /** Content hash by trial. */
  readonly trials: Map<string, string>;
  readonly questions: Set<string>;
  readonly withdrawn: Set<string>;
  /** Requests that got no answer: a server was killed under them. */
  unanswered: number;
}

/**
 * Writers that send one test after another until they are told to stop, a question now and then, a withdrawal now and
 * then, and write down what was acknowledged.
 * @returns how to stop them: it waits for the last answers
 */
export function writeLoad(url: string, key: string, known: Acknowledged, nextSeed: () => number): () => Promise<void> {
  let stopped = false;
  async function send(path: string, body: unknown): Promise<Record<string, unknown>> {
    const answer = await fetch(new URL(path, url), json(body, bearer(key)));
    const said = (await answer.json()) as Record<string, unknown>;
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${JSON.stringify(said).slice(0, 500)}`);
    return said;
  }
  async function writeOne(seed: number): Promise<void> {
    const configuration = { ...SAMPLE_CONFIGURATION, arrangement: `arrangement ${seed % 3}` };
    const changes = { configuration, runs: sampleTrial(seed).runs.slice(1) };
    const { id, sha256 } = await send("/v1/trials", sampleTrial(seed, changes));
    known.trials.set(String(id), String(sha256));
    if (seed % 8 === 0) {
      // 50 rounds of it stay under the questions that are taken in an hour
      const { questions } = await send(`/v1/trials/${id}/questions`, { question: `Number ${seed}?` });
      known.questions.add((questions as { id: string }[])[0]!.id);
    }
    if (seed % 9 === 0) {
      await send(`/v1/trials/${id}/withdrawal`, { reason: "taken back" });
      known.withdrawn.add(String(id));
    }
  }
  async function write(): Promise<void> {
    while (!stopped) {
      try {
        await writeOne(nextSeed());
      } catch (error) {
        if (!isBroken(error)) throw error;
        known.unanswered++;
        return;
      }
    }
  }
  const writers = Promise.all(Array.from({ length: 4 }, write));
  writers.catch(() => undefined); // told where they are waited for
  return async () => {
    stopped = true;
    await writers;
  };
}

/** Whether the connection broke before an answer was read whole: fetch's word for that is a TypeError. */
function isBroken(error: unknown): boolean {
  return error instanceof TypeError;
}
