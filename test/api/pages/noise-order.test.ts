import { describe, expect, test } from "vitest";
import { noiseOrderWords, quieterWords } from "../../../api/pages/room/noise-order.ts";

describe("how sure it is which is the quieter", () => {
  const at = (value: number, expanded: number) => ({
    noise: {
      value,
      unit: "dB" as const,
      weighting: "A" as const,
      u: expanded / 1.959964,
      dof: null,
      low: value - expanded,
      high: value + expanded,
    },
  });
  const unknown = { noise: null };

  test("by hand: 5.6 and 8.8 dB make 10.4 of the difference", () => {
    expect(noiseOrderWords([at(48.9, 5.6), at(51.8, 8.8)])).toBe(
      "Quietest first, of those measured: the second is louder than the first by 3 ± 10 dB (95\u00a0%), so which of these two is the quieter cannot be told.",
    );
    expect(noiseOrderWords([at(40, 3), at(50, 4), at(52, 30), unknown])).toMatch(
      /10.0 ± 5.0 dB \(95\u00a0%\), so the first is the quieter; the one after them cannot be told from the first.$/,
    );
    expect(noiseOrderWords([at(40, 3), at(50, 4), at(60, 4), at(70, 4)])).toMatch(
      /the first is the quieter; the 2 after them are louder than the first.$/,
    );
  });

  test("without two levels there is nothing to tell, and it is said", () => {
    expect(noiseOrderWords([at(40, 3)])).toBeNull();
    expect(noiseOrderWords([at(40, 3), unknown])).toContain("Of one alone");
    expect(noiseOrderWords([unknown, unknown])).toContain("no order of noise");
  });

  test("a quieter near miss is told of, and whether it is surely quieter", () => {
    expect(quieterWords([at(37.3, 5.6)], [at(48.9, 5.6)])).toMatch(/by 11.6 ± 7.9 dB \(95\u00a0%\)\.$/);
    expect(quieterWords([at(47, 5.6), unknown], [at(48.9, 5.6)])).toContain("not sure to be quieter");
    expect(quieterWords([at(50, 5.6)], [at(48.9, 5.6)])).toBeNull();
    expect(quieterWords([unknown], [at(48.9, 5.6)])).toBeNull();
  });
});
