import { LN2_HIGH, LN2_LOW } from "./exp.ts";

/**
 * ln x by arithmetic alone, to 2 units in the last place: the same digits in every engine, as `exp` says why.
 * x = 2^n·m with m in [√½, √2), ln m = 2·artanh((m − 1)/(m + 1)).
 */
export function log(x: number): number {
  if (!(x > 0 && x < Infinity)) return x === 0 ? -Infinity : x > 0 ? x : Number.NaN;
  let n = 0;
  let m = x;
  if (m < 2 ** -1022) {
    m *= 2 ** 54; // bits of a subnormal hold no exponent
    n = -54;
  }
  NUMBER[0] = m;
  const high = WORDS[UPPER]!;
  n += (high >>> 20) - 1023;
  WORDS[UPPER] = (high & 0xfffff) | 0x3ff00000;
  m = NUMBER[0];
  if (m >= Math.SQRT2) {
    m /= 2;
    n++;
  }
  return n * LN2_HIGH + (twiceArtanh((m - 1) / (m + 1)) + n * LN2_LOW);
}

/** ln(1 + x), also where x is small. */
export function log1p(x: number): number {
  return x > -0.29 && x < 0.41 ? twiceArtanh(x / (2 + x)) : log(1 + x);
}

/** A double and the two words it is made of; sign and exponent stand in the upper one. */
const NUMBER = new Float64Array([1]);
const WORDS = new Uint32Array(NUMBER.buffer);
const UPPER = WORDS[1] === 0 ? 0 : 1; // the order of bytes is the machine's

/**
 * 2(s + s³/3 + s⁵/5 + …) for |s| ≤ 0.172: what follows s²³ is less than 1e-18 of it. Every other term in a sum of its own,
 * which takes half the time.
 */
function twiceArtanh(s: number): number {
  const q = s * s;
  const p = q * q;
  const one = 1 / 3 + p * (1 / 7 + p * (1 / 11 + p * (1 / 15 + p * (1 / 19 + p * (1 / 23)))));
  const other = 1 / 5 + p * (1 / 9 + p * (1 / 13 + p * (1 / 17 + p * (1 / 21))));
  return 2 * s + 2 * s * q * (one + q * other);
}
