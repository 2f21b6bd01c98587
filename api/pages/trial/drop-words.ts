/** Why rows and readings are left out, in words. */
const DROP_WORDS: Readonly<Record<string, string>> = {
  "blank-line": "blank lines",
  comment: "lines of comment",
  "title-line": "lines of title",
  "ragged-row": "rows with more cells than columns",
  "cut-off-row": "rows cut off in mid-number",
  "unreadable-time": "rows whose time cannot be read",
  "no-time": "rows without a time",
  cropped: "rows outside the part the tester chose",
  "backward-time": "rows whose time runs backwards",
  "repeated-time": "rows with the time of another",
  backlog: "rows sent late, all at once",
  missing: "rows with no reading",
  "at-ceiling": "readings at the counter's limit, which date the peak but enter no fit",
  restart: "zeros while the counter restarted",
  held: "readings that only repeat the one before",
  "start-up": "readings before the counter was awake",
  spike: "readings that stand alone, far from their neighbours",
};

/** The same of several logs and channels, each channel by its name: which of them is shown need not be the one that lost most. */
export function dropsWords(
  reason: string,
  drops: readonly { readonly channel: string | null; readonly count: number }[],
): string {
  const sum = (of: typeof drops) => of.reduce((total, { count }) => total + count, 0);
  if (drops.every(({ channel }) => channel === null)) return dropWords(reason, sum(drops));
  const counts = [...Map.groupBy(drops, ({ channel }) => channel ?? "whole rows")];
  return `${DROP_WORDS[reason] ?? reason}: ${counts.map(([name, same]) => `${sum(same)} of ${name}`).join(", ")}`;
}

/** `readings that stand alone, far from their neighbours (3)`. */
export function dropWords(reason: string, count: number): string {
  return `${DROP_WORDS[reason] ?? reason.replaceAll("-", " ")} (${count})`;
}
