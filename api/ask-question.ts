import type { Connection } from "../db/database.ts";
import { countQuestionsSince, findQuestion, insertAnswer, insertQuestion, listWaiting } from "../db/questions.ts";
import { StoreError } from "../db/store-error.ts";
import { findTrial } from "../db/trials.ts";
import { makeWord } from "../db/words.ts";
import type { Dependencies } from "./environment.ts";
import { makeId } from "./public-id.ts";
import { retrying } from "./store-trial.ts";

/** Nobody needs a key to ask, so what a flood can do is bounded: by record, and by the hour for all of them. */
const MOST_UNANSWERED = 20;
const MOST_AN_HOUR = 120;
const HOUR_MS = 3_600_000;

/**
 * Puts a reader's question to a trial's newest revision.
 * The same words once more, while they wait for an answer, are the same question: a button was pressed twice.
 * @returns the question's id, and whether it was put now
 * @throws StoreError "too-many-questions" where the record, or the hour, has enough of them
 */
export async function askQuestion(
  deps: Dependencies,
  id: string,
  text: string,
): Promise<{ id: string; stored: boolean }> {
  const { db, now, random } = deps;
  const question = makeId("question", random);
  const word = await makeWord(text, random(16));
  return retrying(() =>
    db.write(async (connection) => {
      const { revision } = await findTrial(connection, id);
      const asked = now();
      const waiting = await listWaiting(connection, id);
      const same = waiting.find((one) => one.question === text && one.revision === revision);
      if (same) return { id: same.id, stored: false };
      await refuseFlood(connection, waiting.length, asked);
      await insertQuestion(connection, { id: question, trial: id, revision, word, at: asked.toISOString() });
      return { id: question, stored: true };
    }),
  );
}

/** The answer of the submitter or of the operator. Whether the record is listed again is the operator's to say. */
export async function answerQuestion(
  { db, now, random }: Dependencies,
  question: string,
  author: string,
  text: string,
): Promise<void> {
  const word = await makeWord(text, random(16));
  await retrying(() =>
    db.write(async (connection) => {
      const { trial, answers } = await findQuestion(connection, question);
      const at = now().toISOString();
      await insertAnswer(connection, { question, trial, n: answers + 1, author, word, at });
    }),
  );
}

async function refuseFlood(connection: Connection, waiting: number, asked: Date): Promise<void> {
  if (waiting >= MOST_UNANSWERED) {
    throw new StoreError(
      "too-many-questions",
      `${MOST_UNANSWERED} questions to this test wait for an answer. Yours may be among them: please read them first.`,
    );
  }
  const since = new Date(asked.getTime() - HOUR_MS).toISOString();
  if ((await countQuestionsSince(connection, since)) >= MOST_AN_HOUR) {
    throw new StoreError(
      "too-many-questions",
      "More questions came within the hour than can be read. Ask again later.",
    );
  }
}
