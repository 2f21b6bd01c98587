import type { ListFormat } from "../../leaderboard-formats.ts";
import type { LeaderboardQuery } from "../../wire/leaderboard.ts";

type Change = Partial<Record<keyof LeaderboardQuery, string | null>>;
type Texts = Readonly<Record<string, string>>;

/** What need not be said, since it is so where nothing is. */
const DEFAULTS: Texts = {
  band: "0.1-1.0",
  basis: "all",
  unpaired: "exclude",
  invented: "include",
  sort: "cadr",
  limit: "50",
};

/** The page with the same filters but for a change (null drops one), from its first row unless the change says where. */
export function pageAddress(texts: Texts, change: Change = {}): string {
  const search = searchOf({ ...texts, cursor: null, ...change });
  return search ? `/?${search}` : "/";
}

/** The same list as data, as many rows as one answer holds. */
export function dataAddress(texts: Texts, unit: string, format: ListFormat): string {
  const { cost_max: amount, currency } = texts;
  const asked: Record<string, string | null> = { ...texts, cursor: null, limit: "200", format };
  if (unit !== "m3/h") asked.unit = unit;
  if (amount !== undefined) {
    asked.cost_max = `${amount} ${currency}`;
    asked.currency = null;
  }
  return `/v1/leaderboard?${searchOf(asked)}`;
}

/** Whether anything but the band was chosen. */
export function isFiltered(texts: Texts): boolean {
  return searchOf({ ...texts, band: null, limit: null, cursor: null }) !== "";
}

function searchOf(texts: Record<string, string | null>): string {
  const said = Object.entries(texts).filter(
    (pair): pair is [string, string] => pair[1] !== null && pair[1] !== DEFAULTS[pair[0]],
  );
  return new URLSearchParams(said).toString();
}
