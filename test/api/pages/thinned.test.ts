import { expect, test } from "vitest";
import { thinned } from "../../../api/pages/charts/thinned.ts";

test("thinned readings keep every stretch's lowest and highest", () => {
  const values = Float64Array.from({ length: 10_000 }, (_, i) => Math.sin(i) * (i % 97));
  const kept = thinned(values, 900, (i) => i % 3 > 0);
  expect(kept.length).toBeLessThanOrEqual(900);
  expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
  const usable = [...values.keys()].filter((i) => i % 3 > 0).map((i) => values[i]!);
  const drawn = kept.map((i) => values[i]!);
  expect([Math.min(...drawn), Math.max(...drawn)]).toEqual([Math.min(...usable), Math.max(...usable)]);
});
