import type { Database } from "../../../db/database.ts";
import type { App } from "../../endpoint.ts";
import { findCommonestCurrency } from "../../read-leaderboard.ts";
import { readSizing } from "../../read-sizing.ts";
import { Asked } from "../form/asked.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { RoomPage } from "./room-page.tsx";
import { isAsked, ROOM_FIELDS, readRoomQuestion } from "./room-question.ts";

/** `GET /room`: what a reader's own room needs, and which cleaners do it. */
export function addRoomPage(app: App): void {
  app.get("/room", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const reader = readerOf(c);
    const asked = new Asked(c, ROOM_FIELDS);
    const question = isAsked(asked) ? readRoomQuestion(asked, reader) : null;
    const sizing = question && (await readSizing(db, publicUrl, question.query));
    const page = (
      <RoomPage
        reader={reader}
        asked={asked}
        answer={question && sizing ? { texts: question.texts, sizing } : null}
        currency={await commonestCurrency(db)}
      />
    );
    return htmlAnswer(c, page, asked.isRight ? 200 : 422);
  });
}

/** What most prices are in stands in the form until another is written over it. */
async function commonestCurrency(db: Database): Promise<string> {
  return (await findCommonestCurrency(db, { band: "0.1-1.0", basis: "all" })) ?? "";
}
