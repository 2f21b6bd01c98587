/**
 * A sum of products as if in twice the working precision: every product and sum is kept together with its exact rounding
 * error (T. J. Dekker 1971; Ogita, Rump & Oishi, "Accurate sum and dot product", 2005, Dot2). The result is within one
 * rounding of the exact sum unless terms cancel by more than 1e16.
 */
export class CompensatedSum {
  #high = 0;
  #low = 0;

  add(term: number): this {
    const sum = this.#high + term;
    const virtual = sum - this.#high;
    this.#low += this.#high - (sum - virtual) + (term - virtual);
    this.#high = sum;
    return this;
  }

  addProduct(a: number, b: number): this {
    const product = a * b;
    const aHigh = upperHalf(a);
    const bHigh = upperHalf(b);
    const aLow = a - aHigh;
    const bLow = b - bHigh;
    this.add(product);
    this.#low += aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
    return this;
  }

  get value(): number {
    return this.#high + this.#low;
  }
}

/** The upper 26 bits, so that products of halves are exact. 2²⁷ + 1 is Veltkamp's constant for 53 bits. */
function upperHalf(a: number): number {
  const spread = a * 134217729;
  return spread - (spread - a);
}
