/** Parts of a planned budget in words. */
export const PART_WORDS: Readonly<Record<string, string>> = {
  volume: "Volume of the room",
  total_fit: "Decay with the cleaner on",
  natural_fit: "Decay with the cleaner off",
};
