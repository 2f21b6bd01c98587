/** Names that mean a band everywhere else, so no channel may take them. */
export const BAND_NAMES = ["0.1-1.0", "0.5-3.0", "5-11", "mass"] as const;
export const BAND_ALIASES = { smoke: "0.1-1.0", dust: "0.5-3.0", pollen: "5-11" } as const;

/** Whether a name means a band, by itself or by another word for it. */
export function isBandName(name: string): boolean {
  return (BAND_NAMES as readonly string[]).includes(name) || Object.hasOwn(BAND_ALIASES, name);
}
