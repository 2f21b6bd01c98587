import type { LeaderboardQuery } from "../wire/leaderboard.ts";

/** Kinds of aerosol in words. A record that states none is held as `other`, which alone does not tell the two apart. */
export const AEROSOL_WORDS: Record<NonNullable<LeaderboardQuery["aerosol"]>, string> = {
  oil_smoke: "oil smoke",
  wood_smoke: "wood smoke",
  incense: "incense",
  salt: "salt",
  test_dust: "test dust",
  shop_dust: "shop dust",
  ambient: "what was in the air anyway",
  other: "something else, or not stated",
};

/** What one test was made with, as its record states it; null where it states nothing. */
export function aerosolWords(kind: string, isStated: boolean): string | null {
  if (!isStated) return null;
  return kind === "other" ? "something else" : kindWords(kind);
}

/** What several tests were made with. */
export function aerosolOfAll(kind: string, tests: readonly { readonly aerosol_stated: boolean }[]): string {
  if (kind !== "other" || tests.length === 0) return kindWords(kind);
  const stated = tests.filter((test) => test.aerosol_stated).length;
  return stated === 0 ? "not stated" : stated === tests.length ? "something else" : AEROSOL_WORDS.other;
}

function kindWords(kind: string): string {
  return AEROSOL_WORDS[kind as keyof typeof AEROSOL_WORDS] ?? kind.replaceAll("_", " ");
}
