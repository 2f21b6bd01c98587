import { sql } from "drizzle-orm";
import { check, foreignKey, index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { words } from "./identity.ts";
import { rowSha256 } from "./row-hash.ts";
import { trialRevisions } from "./trials.ts";

/** What readers asked about a trial's revision, without a key. The words can be erased, as all personal words. */
export const questions = sqliteTable(
  "questions",
  {
    id: text("id").primaryKey(),
    trial: text("trial").notNull(),
    revision: integer("revision").notNull(),
    digest: text("digest")
      .notNull()
      .references(() => words.digest),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [
    foreignKey({ columns: [t.trial, t.revision], foreignColumns: [trialRevisions.trial, trialRevisions.revision] }),
    index("questions_trial").on(t.trial, t.at),
    index("questions_at").on(t.at), // how many came of late: nobody needs a key to ask
  ],
);

/** What the submitter or the operator answered, in order. */
export const answers = sqliteTable(
  "answers",
  {
    question: text("question")
      .notNull()
      .references(() => questions.id),
    n: integer("n").notNull(),
    /** Submitter id, or "operator". */
    author: text("author").notNull(),
    digest: text("digest")
      .notNull()
      .references(() => words.digest),
    at: text("at").notNull(),
    rowSha256: rowSha256(),
  },
  (t) => [primaryKey({ columns: [t.question, t.n] }), check("answers_from_1", sql`${t.n} >= 1`)],
);
