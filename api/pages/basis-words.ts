import type { LeaderboardQuery } from "../wire/leaderboard.ts";

/** The tests that a figure counts. */
export const BASIS_WORDS: Record<LeaderboardQuery["basis"], string> = {
  all: "all tests",
  independent: "independent tests only",
  paired: "paired tests only",
  independent_paired: "tests both independent and paired",
};

/** What makes a test paired, and what one lacks that is not; the method page says it at length. */
export const PAIRED_WORDS =
  "natural loss measured by the same counter in the same room, within twelve hours, with mixing fan and ventilation alike";
export const UNPAIRED_WORDS = "natural loss assumed, or measured on another day or under other conditions";
