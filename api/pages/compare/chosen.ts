import type { Ctx } from "../../environment.ts";
import { BASES, BandName } from "../../wire/leaderboard.ts";

/** What the address of the page asks to compare. */
export interface Chosen {
  /** Ids of entries as they were written, each once. */
  readonly ids: readonly string[];
  readonly basis: (typeof BASES)[number];
  readonly band: ReturnType<typeof BandName.parse>;
  /** Words to look for in titles. */
  readonly find: string;
  /** A comparison is wanted, and not another look at what may be chosen. */
  readonly isAsked: boolean;
}

const MOST_NAMED = 12;
const LONGEST = 100;

/** `entries=a,b` as links write it and `entries=a&entries=b` as ticked boxes send it; addresses of entries will do. */
export function readChosen(c: Ctx): Chosen {
  const named = (c.req.queries("entries") ?? [])
    .flatMap((text) => text.split(/[\s,;]+/))
    .map((text) => text.split("/").at(-1)!.slice(0, LONGEST))
    .filter(Boolean);
  const band = BandName.safeParse(c.req.query("band"));
  return {
    ids: [...new Set(named)].slice(0, MOST_NAMED),
    basis: BASES.find((basis) => basis === c.req.query("basis")) ?? "all",
    band: band.success ? band.data : "0.1-1.0",
    find: (c.req.query("find") ?? "").trim().slice(0, LONGEST),
    isAsked: c.req.query("do") === "compare" || (c.req.query("do") !== "find" && c.req.query("entries") !== undefined),
  };
}
