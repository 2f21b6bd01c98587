import { INTEREST_WORDS } from "./figures.ts";

type Interest = Readonly<Record<string, number>>;

/** Who paid for the tests behind a figure, in words that stand beside it. */
export function WhoPaid({ interest }: { readonly interest: Interest }) {
  return <span class="paid">{paidWords(interest)}</span>;
}

/** The same with the number of tests of each kind, a line each. */
export function PaidLines({ interest }: { readonly interest: Interest }) {
  return Object.entries(interest).map(([kind, count]) => (
    <span class="line paid">{`${count} × ${interestWords(kind)}`}</span>
  ));
}

/** `bought or built by the tester`, or of several kinds `2 × …, 1 × …`. */
export function paidWords(interest: Interest): string {
  const kinds = Object.entries(interest);
  if (kinds.length === 1) return interestWords(kinds[0]![0]);
  return kinds.map(([kind, count]) => `${count} × ${interestWords(kind)}`).join(", ");
}

function interestWords(kind: string): string {
  return INTEREST_WORDS[kind] ?? kind.replaceAll("_", " ");
}
