import type { Database } from "../../../db/database.ts";
import type { App } from "../../endpoint.ts";
import { RequestError } from "../../problem.ts";
import { readLeaderboard } from "../../read-leaderboard.ts";
import type { LeaderboardOut } from "../../wire/leaderboard.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { complaintFor } from "./filter-words.ts";
import { LeaderboardPage } from "./leaderboard-page.tsx";
import { type Question, readQuestion } from "./question.ts";

/** `GET /`: the leaderboard. */
export function addLeaderboardPage(app: App): void {
  app.get("/", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const reader = readerOf(c);
    const asked = await readQuestion(c, db, reader);
    const { question, board } = await answerTo(asked, db, `${publicUrl}/v1/leaderboard`);
    const page = <LeaderboardPage question={question} board={board} reader={reader} />;
    return htmlAnswer(c, page, board ? 200 : 422);
  });
}

/** The board asked for; where only reading it shows that the question is wrong, that is a complaint like any other. */
async function answerTo(
  question: Question,
  db: Database,
  href: string,
): Promise<{ question: Question; board: LeaderboardOut | null }> {
  if (question.query === null) return { question, board: null };
  try {
    return { question, board: await readLeaderboard(db, question.query, href) };
  } catch (error) {
    const pointer = error instanceof RequestError && error.code === "invalid" ? error.errors[0]?.pointer : undefined;
    if (pointer === undefined) throw error;
    const name = pointer.replace("#/", "");
    return { question: { ...question, query: null, complaints: { [name]: complaintFor(name) } }, board: null };
  }
}
