import { describe, expect, it } from "vitest";
import { poisson } from "../../../analysis/simulate/poisson.ts";
import { createRandom } from "../../../analysis/simulate/random.ts";

const DRAWS = 200_000;

/** Pearson's χ² of the draws against e^(−m) m^n/n!, cells of 20 or more expected, as (χ² − cells)/√(2 cells). */
function surprise(mean: number): number {
  const random = createRandom(99);
  const seen = new Map<number, number>();
  for (let i = 0; i < DRAWS; i++) {
    const count = poisson(random, mean);
    seen.set(count, (seen.get(count) ?? 0) + 1);
  }
  let chiSquared = 0;
  let cells = 0;
  let p = Math.exp(-mean);
  for (let n = 0; n < 4 * mean + 50; n++, p *= mean / n) {
    const expected = DRAWS * p;
    if (expected < 20) continue;
    chiSquared += ((seen.get(n) ?? 0) - expected) ** 2 / expected;
    cells++;
  }
  return (chiSquared - cells) / Math.sqrt(2 * cells);
}

describe("Poisson counts follow the distribution", () => {
  it.each([0.3, 4, 9.99, 10, 17.5, 60, 400])("mean %s", (mean) => expect(Math.abs(surprise(mean))).toBeLessThan(3.5));

  it("a mean of nothing gives nothing", () => expect(poisson(createRandom(1), 0)).toBe(0));
});
