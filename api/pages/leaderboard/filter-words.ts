import type { LeaderboardQuery } from "../../wire/leaderboard.ts";
import { BAND_WORDS } from "../figures.ts";

export const SORT_WORDS: Record<LeaderboardQuery["sort"], string> = {
  cadr: "most clean air first",
  cadr_low: "most clean air at least (low end of the interval)",
  cadr_per_watt: "most clean air per watt",
  cadr_per_cost: "most clean air per price",
  noise: "quietest first",
  noise_for_300: "quietest for 300 m³/h in all",
};

/** What a field takes, said where it was given something else. */
export function complaintFor(name: string): string {
  return COMPLAINTS[name] ?? "One of those offered is meant.";
}

const COMPLAINTS: Record<string, string> = {
  band: `One of ${Object.keys(BAND_WORDS).join(", ")} is meant.`,
  noise_max: "A level from −20 to 194 dB(A) is meant, decimals after a point or a comma: 45.5",
  power_max: "A power from 0 to 1 000 000 W is meant, decimals after a point or a comma: 37.5",
  cost_max: "An amount and its currency are meant, decimals after a point or a comma: 99.50 and EUR",
  currency: "The three letters of a currency are meant: EUR",
  min_rooms: "A whole number of rooms from 1 to 1000 is meant.",
  limit: "A whole number of rows from 1 to 200 is meant.",
  cursor: "This place in the list is not to be found: go from the first page.",
  as_of: "An instant is meant, as 2026-11-01T12:00:00Z",
};
