/** cos 2πx for x from 0 to 1 by arithmetic alone: the same digits in every engine, as `exp` says why. Taylor series up to ⅛ turn. */
export function cosOfTurns(x: number): number {
  const turns = x > 0.5 ? 1 - x : x;
  return turns > 0.25 ? -quarter(0.5 - turns) : quarter(turns);
}

function quarter(turns: number): number {
  if (turns <= 0.125) return cosine(2 * Math.PI * turns);
  return sine(2 * Math.PI * (0.25 - turns));
}

/** What follows a¹⁶ is less than 1e-17 for |a| ≤ π/4. */
function cosine(a: number): number {
  return series(-a * a, 0);
}

function sine(a: number): number {
  return a * series(-a * a, 1);
}

/** Σ q^j/(2j + first)!, from its smallest term. */
function series(q: number, first: 0 | 1): number {
  let sum = 1;
  for (let j = 8; j >= 1; j--) sum = 1 + (sum * q) / ((2 * j + first) * (2 * j + first - 1));
  return sum;
}
