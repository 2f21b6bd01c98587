import { asc, eq, gte, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { Connection } from "./database.ts";
import { event, newestSeqOf } from "./events.ts";
import { words } from "./schema/identity.ts";
import { answers, questions } from "./schema/questions.ts";
import { trialStates } from "./schema/standings.ts";
import { sealed } from "./seal.ts";
import { StoreError } from "./store-error.ts";
import type { NewWord } from "./words.ts";

/** What readers asked about a trial, oldest first, each with its answers; words that were erased are null. */
export async function listQuestions(connection: Connection, trial: string) {
  const said = alias(words, "said");
  const rows = await connection
    .select({ question: questions, asked: words.text, answer: answers, said: said.text })
    .from(questions)
    .innerJoin(words, eq(words.digest, questions.digest))
    .leftJoin(answers, eq(answers.question, questions.id))
    .leftJoin(said, eq(said.digest, answers.digest))
    .where(eq(questions.trial, trial))
    .orderBy(asc(questions.at), asc(questions.id), asc(answers.n));
  return Map.groupBy(rows, ({ question }) => question.id)
    .values()
    .map((group) => {
      const { question, asked } = group[0]!;
      return {
        id: question.id,
        revision: question.revision,
        at: question.at,
        question: asked,
        answers: group.flatMap((row) => {
          return row.answer ? [{ at: row.answer.at, author: row.answer.author, answer: row.said }] : [];
        }),
      };
    })
    .toArray();
}

/** Questions to a trial that nobody answered, and that no operator laid to rest by listing it since. */
export async function listWaiting(connection: Connection, trial: string) {
  const asked = sql`(SELECT seq FROM events e WHERE e.subject = ${trial} AND e.kind = 'trial-questioned' AND e.reason = ${questions.id})`;
  const listed = sql`(SELECT coalesce(max(seq), 0) FROM events e WHERE e.subject = ${trial} AND e.kind = 'trial-listed')`;
  return connection
    .select({ id: questions.id, revision: questions.revision, question: words.text })
    .from(questions)
    .innerJoin(words, eq(words.digest, questions.digest))
    .where(
      sql`${questions.trial} = ${trial} AND ${asked} > ${listed} AND NOT EXISTS (SELECT 1 FROM answers a WHERE a.question = ${questions.id})`,
    );
}

/** How many questions were put to any record since an instant. */
export async function countQuestionsSince(connection: Connection, at: string): Promise<number> {
  const [row] = await connection.select({ count: sql<number>`count(*)` }).from(questions).where(gte(questions.at, at));
  return row?.count ?? 0;
}

/** A question with the number of its answers. @throws StoreError "not-found" */
export async function findQuestion(connection: Connection, id: string) {
  const [row] = await connection
    .select({
      trial: questions.trial,
      answers: sql<number>`(SELECT count(*) FROM answers a WHERE a.question = ${questions.id})`,
    })
    .from(questions)
    .where(eq(questions.id, id));
  if (!row) throw new StoreError("not-found", `No question ${id} is stored.`);
  return row;
}

/** Puts a question to a trial, in one batch: a listed one is questioned from now on, and counts as before. */
export async function insertQuestion(
  connection: Connection,
  it: { id: string; trial: string; revision: number; word: NewWord; at: string },
): Promise<void> {
  const { id, trial, revision, word, at } = it;
  await connection.batch([
    event(connection, { at, kind: "trial-questioned", subject: trial, actor: "reader", reason: id }),
    connection.insert(words).values(sealed(words, word)),
    connection.insert(questions).values(sealed(questions, { id, trial, revision, digest: word.digest, at })),
    connection
      .update(trialStates)
      .set({ state: "questioned", seq: newestSeqOf(trial) })
      .where(sql`${trialStates.trial} = ${trial} AND ${trialStates.state} = 'listed'`),
  ]);
}

/** Adds the answer after those that were read: another writer's of the same number makes the batch fail. */
export async function insertAnswer(
  connection: Connection,
  it: { question: string; trial: string; n: number; author: string; word: NewWord; at: string },
): Promise<void> {
  const { question, trial, n, author, word, at } = it;
  await connection.batch([
    event(connection, { at, kind: "question-answered", subject: trial, actor: author, reason: question }),
    connection.insert(words).values(sealed(words, word)),
    connection.insert(answers).values(sealed(answers, { question, n, author, digest: word.digest, at })),
  ]);
}

/** The digests of all that was asked and answered about a trial. */
export async function listQuestionDigests(connection: Connection, trial: string): Promise<string[]> {
  const rows = await connection
    .select({ asked: questions.digest, said: answers.digest })
    .from(questions)
    .leftJoin(answers, eq(answers.question, questions.id))
    .where(eq(questions.trial, trial));
  return [...new Set(rows.flatMap(({ asked, said }) => (said === null ? [asked] : [asked, said])))];
}
