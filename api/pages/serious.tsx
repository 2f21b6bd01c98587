import { counted } from "./counts.ts";

/** `1 of 3 tests has a serious finding`, as a way to where it can be read; nothing where there is none. */
export function SeriousLine(it: { readonly trials: number; readonly serious: number; readonly entry: string }) {
  if (it.serious === 0) return null;
  return (
    <small class="line">
      <a href={`/entries/${it.entry}#tests`}>{seriousWords(it)}</a>
    </small>
  );
}

/** The same in words alone. */
export function seriousWords({ trials, serious }: { readonly trials: number; readonly serious: number }): string {
  if (trials === 1) return "its one test has a serious finding";
  const have = serious === 1 ? "has" : "have";
  return `${serious} of ${counted(trials, "test")} ${have} a serious finding`;
}
