/** A schema's complaint as it stands beside a field, for people who never heard of schemas. */
export function complaintWords(detail: string): string {
  for (const [pattern, words] of WORDS) {
    const match = pattern.exec(detail);
    if (match) return words.replace("$1", match[1] ?? "");
  }
  return detail;
}

const WORDS: readonly (readonly [RegExp, string])[] = [
  [
    /^A request may hold (\d+) values/,
    "The logs together hold more than $1 times and readings: set columns below to “not used”, or cut the files to the hours of the test.",
  ],
  [/received undefined|^Invalid option.*undefined/, "This is missing."],
  [/^Too big: expected string to have <=(\d+)/, "At most $1 characters."],
  [/^Too big: expected number to be <=(\d+)/, "At most $1."],
  [/^Too big: expected array to have <=(\d+)/, "At most $1 of them."],
  [/^Too small: expected array to have >=1/, "At least one is needed."],
  [/^Too small: expected number to be >=(-?[\d.e-]+)/, "At least $1."],
  [/^Too small: expected number to be >(-?[\d.e-]+)/, "More than $1."],
  [/expected int/, "A whole number."],
  [/^Invalid URL/, "Write the whole address, beginning with https://."],
  [/^Invalid ISO date$/, "Write the day as 2026-10-03."],
  [/^Invalid ISO datetime/, "There is no such date and time."],
];
