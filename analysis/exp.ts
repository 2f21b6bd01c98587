/**
 * e^x by arithmetic alone, to 1½ units in the last place. The language leaves the last digit of Math.exp to each engine, and a fit
 * makes of it a difference in the ninth; sums, products and quotients are the same everywhere (IEEE 754), so a preview in
 * any browser is the server's result. x = n·ln 2 + r with |r| ≤ ½ ln 2, e^r by its Taylor series, times 2^n.
 */
export function exp(x: number): number {
  if (!(Math.abs(x) < 745.2)) return x > 0 ? Infinity : x < 0 ? 0 : x + 1;
  const n = Math.round(x * PER_LN2);
  const r = x - n * LN2_HIGH - n * LN2_LOW;
  const series = 1 + r * seriesOfExpm1(r);
  return n > 1023 ? series * TWO_TO[1023 - LEAST]! * TWO_TO[n - 1023 - LEAST]! : series * TWO_TO[n - LEAST]!;
}

/** e^x − 1, also where x is small. */
export function expm1(x: number): number {
  return Math.abs(x) < 0.35 ? x * seriesOfExpm1(x) : exp(x) - 1;
}

/** (e^x − e^−x)/2 */
export function sinh(x: number): number {
  return (expm1(x) - expm1(-x)) / 2;
}

/** 1 − 2/(e^2x + 1) */
export function tanh(x: number): number {
  if (Math.abs(x) > 20) return Math.sign(x); // 1 to the last digit
  const t = expm1(2 * x);
  return t / (t + 2);
}

/** ln 2 in two parts: the first of 32 bits, so that its product with any exponent is exact. */
export const LN2_HIGH = Math.floor(Math.LN2 * 2 ** 32) / 2 ** 32;
/** ln 2 = 0.693147180559945309417232121458…: what the high part leaves of its first 32 digits. */
export const LN2_LOW = Math.LN2 - LN2_HIGH + 2.3190468138462996e-17;
const PER_LN2 = 1 / Math.LN2;

/** (e^r − 1)/r for |r| ≤ 0.35: what follows r¹²/13! is less than 1e-17 of it. Every other term in a sum of its own. */
function seriesOfExpm1(r: number): number {
  const q = r * r;
  const one =
    1 + q * (1 / 6 + q * (1 / 120 + q * (1 / 5040 + q * (1 / 362_880 + q * (1 / 39_916_800 + q / 6_227_020_800)))));
  const other = 1 / 2 + q * (1 / 24 + q * (1 / 720 + q * (1 / 40_320 + q * (1 / 3_628_800 + q / 479_001_600))));
  return one + r * other;
}

const LEAST = -1075;

/** 2^n from −1075 (0) to 1023, by halving and doubling, which is exact. */
const TWO_TO = powersOfTwo();

function powersOfTwo(): Float64Array {
  const powers = new Float64Array(1023 - LEAST + 1);
  powers[-LEAST] = 1;
  for (let n = 1; n <= 1023; n++) powers[n - LEAST] = 2 * powers[n - 1 - LEAST]!;
  for (let n = -1; n >= LEAST; n--) powers[n - LEAST] = powers[n + 1 - LEAST]! / 2;
  return powers;
}
