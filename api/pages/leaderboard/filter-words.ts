import type { LeaderboardQuery } from "../../wire/leaderboard.ts";
import { BAND_WORDS } from "../figures.ts";

type Words<T extends string> = Record<T, string>;

export const BASIS_WORDS: Words<LeaderboardQuery["basis"]> = {
  all: "all tests",
  independent: "independent tests only",
  paired: "paired tests only",
  independent_paired: "tests both independent and paired",
};

/** What makes a test paired, and what one lacks that is not; the method page says it at length. */
export const PAIRED_WORDS =
  "natural loss measured by the same counter in the same room, within twelve hours, with mixing fan and ventilation alike";
export const UNPAIRED_WORDS = "natural loss assumed, or measured on another day or under other conditions";

export const KIND_WORDS: Words<NonNullable<LeaderboardQuery["kind"]>> = {
  user_built: "home-made",
  commercial: "commercial",
};

export const AEROSOL_WORDS: Words<NonNullable<LeaderboardQuery["aerosol"]>> = {
  oil_smoke: "oil smoke",
  wood_smoke: "wood smoke",
  incense: "incense",
  salt: "salt",
  test_dust: "test dust",
  shop_dust: "shop dust",
  ambient: "what was in the air anyway",
  other: "something else",
};

export const SORT_WORDS: Words<LeaderboardQuery["sort"]> = {
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
  noise_max: "A level from −20 to 194 dB(A) is meant, with a dot for decimals: 45.5",
  power_max: "A power from 0 to 1 000 000 W is meant, with a dot for decimals: 37.5",
  cost_max: "An amount and its currency are meant, with a dot for decimals: 99.50 and EUR",
  currency: "The three letters of a currency are meant: EUR",
  min_rooms: "A whole number of rooms from 1 to 1000 is meant.",
  limit: "A whole number of rows from 1 to 200 is meant.",
  cursor: "This place in the list is not to be found: go from the first page.",
  as_of: "An instant is meant, as 2026-11-01T12:00:00Z",
};
