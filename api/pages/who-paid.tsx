import { INTEREST_WORDS } from "./figures.ts";

type Interest = Readonly<Record<string, number>>;

/** Who paid for the tests behind a figure, in words that stand beside it. */
export function WhoPaid({ interest }: { readonly interest: Interest }) {
  return <span class="paid">{paidWords(interest)}</span>;
}

/** `bought or built by the tester`, or of several kinds `2 × …, 1 × …`. */
export function paidWords(interest: Interest): string {
  const kinds = Object.entries(interest);
  const words = (kind: string) => INTEREST_WORDS[kind] ?? kind.replaceAll("_", " ");
  if (kinds.length === 1) return words(kinds[0]![0]);
  return kinds.map(([kind, count]) => `${count} × ${words(kind)}`).join(", ");
}
