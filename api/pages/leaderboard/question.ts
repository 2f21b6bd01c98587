import type { Database } from "../../../db/database.ts";
import type { Ctx } from "../../environment.ts";
import { findCommonestCurrency } from "../../read-leaderboard.ts";
import { LeaderboardQuery } from "../../wire/leaderboard.ts";
import type { Reader } from "../reader.ts";
import { complaintFor } from "./filter-words.ts";
import { nearMiss } from "./near-miss.ts";

/** What an address asks of the leaderboard, as far as it can be understood. */
export interface Question {
  /** Null where something in it is wrong. */
  readonly query: LeaderboardQuery | null;
  /** What each field of the form is to hold: as typed where it is wrong, else as understood. */
  readonly texts: Readonly<Record<string, string>>;
  /** What is wrong, by parameter. */
  readonly complaints: Readonly<Record<string, string>>;
  /** Parameters nobody knows that look like one that is. */
  readonly nearMisses: readonly { readonly sent: string; readonly known: string }[];
}

const Asked = LeaderboardQuery.omit({ unit: true, format: true });
/** Fields that take a figure. */
const FIGURES = ["noise_max", "power_max", "cost_max"];
const BARE_NUMBER = /^\s*\d+(?:\.\d+)?\s*$/;

/** Reads the address of the page. One left empty, as forms send them, asks for nothing; unknown ones are none of its business. */
export async function readQuestion(c: Ctx, db: Database, reader: Reader): Promise<Question> {
  const sent = Object.entries(c.req.queries()).filter(([, values]) => values.some((value) => value !== ""));
  const known = Object.keys(LeaderboardQuery.shape);
  const nearMisses = sent.flatMap(([name]) => {
    const near = known.includes(name) ? null : nearMiss(name, known);
    return near ? [{ sent: name, known: near }] : [];
  });
  const asked = sent.filter(([name]) => Object.hasOwn(Asked.shape, name));
  const twice = asked.filter(([, values]) => values.length > 1);
  const typed: Record<string, string> = Object.fromEntries(
    asked.map(([name, values]) => {
      const text = values.find((each) => each !== "")!;
      return [name, FIGURES.includes(name) ? withPoint(text) : text];
    }),
  );
  const parsed = Asked.safeParse(await withCurrency(typed, db));
  const wrong = parsed.success ? [] : parsed.error.issues.map(({ path }) => String(path[0]));
  const complaints = {
    ...Object.fromEntries(wrong.map((name) => [name, complaintFor(name)])),
    ...Object.fromEntries(twice.map(([name, { length }]) => [name, `It is given ${length} times: keep one.`])),
  };
  const query = parsed.success && Object.keys(complaints).length === 0 ? { ...parsed.data, unit: reader.flow } : null;
  return { query, texts: query ? understood(typed, query) : typed, complaints, nearMisses };
}

/** A bare amount is in the currency named beside it, else in the one that most of the list is priced in. */
async function withCurrency(typed: Record<string, string>, db: Database): Promise<Record<string, string>> {
  const { cost_max: amount, currency } = typed;
  if (amount === undefined || !BARE_NUMBER.test(amount)) return typed;
  const where = LeaderboardQuery.pick({ band: true, basis: true }).safeParse(typed);
  const beside = currency ?? (where.success ? await findCommonestCurrency(db, where.data) : null) ?? "";
  return { ...typed, cost_max: `${amount} ${beside}` };
}

/** `45,5` as `45.5`; three digits after a comma may be thousands, and stay to be complained of. */
function withPoint(text: string): string {
  return text.replace(/^(\s*[-+]?\d+),(\d{1,2}|\d{4,})(?=\D|$)/, "$1.$2");
}

/** What was asked for in one writing: units left off, the currency beside its amount. */
function understood(typed: Record<string, string>, query: LeaderboardQuery): Record<string, string> {
  const texts: Record<string, string> = { ...typed, band: query.band };
  if (query.noise_max !== undefined) texts.noise_max = String(query.noise_max);
  if (query.power_max !== undefined) texts.power_max = String(query.power_max);
  if (query.min_rooms !== undefined) texts.min_rooms = String(query.min_rooms);
  if (query.as_of !== undefined) texts.as_of = query.as_of;
  if (query.currency !== undefined) texts.currency = query.currency;
  if (query.cost_max !== undefined) {
    texts.cost_max = String(query.cost_max.value);
    texts.currency = query.cost_max.currency;
  }
  return texts;
}
