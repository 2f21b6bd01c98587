/** `1 room`, `3 rooms`. */
export function counted(count: number, name: string): string {
  return `${count}\u00a0${name}${count === 1 ? "" : "s"}`;
}

interface Made {
  readonly trials: number;
  readonly rooms: number;
  readonly submitters: number;
}

/** `3 tests in 2 rooms by 2 testers`. */
export function testWords({ trials, rooms, submitters }: Made): string {
  return `${counted(trials, "test")} in\u00a0${counted(rooms, "room")} by\u00a0${counted(submitters, "tester")}`;
}

/** What aerosols were, as in the filters of the list. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
