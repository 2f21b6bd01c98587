import type { LeaderboardQuery } from "../wire/leaderboard.ts";

/** What made a cleaner: a person at home, or somebody who sells it. */
export const KIND_WORDS: Record<NonNullable<LeaderboardQuery["kind"]>, string> = {
  user_built: "home-made",
  commercial: "commercial",
};
