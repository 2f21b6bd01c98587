import { readPageQuery } from "../../answer.ts";
import type { App } from "../../endpoint.ts";
import { readLeaderboard } from "../../read-leaderboard.ts";
import { LeaderboardQuery } from "../../wire/leaderboard.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { HomePage } from "./home-page.tsx";

/** `GET /`: the leaderboard. */
export function addLeaderboardPage(app: App): void {
  app.get("/", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const reader = readerOf(c);
    const query = { ...readPageQuery(c, LeaderboardQuery), unit: reader.flow };
    const board = await readLeaderboard(db, query, `${publicUrl}/v1/leaderboard${new URL(c.req.url).search}`);
    return htmlAnswer(c, <HomePage board={board} reader={reader} />);
  });
}
