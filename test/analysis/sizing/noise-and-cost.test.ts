import { describe, expect, test } from "vitest";
import { levelAtSeat } from "../../../analysis/sizing/level-at-seat.ts";
import { yearlyCost } from "../../../analysis/sizing/yearly-cost.ts";

describe("level at the seat, by energy", () => {
  const at1m = { value: 40, u: 2.5, dof: Infinity };

  test("three units two metres away: 40 − 20·lg 2 + 10·lg 3", () => {
    const { value, u } = levelAtSeat(at1m, [2, 2, 2]);
    expect(value).toBeCloseTo(40 - 6.0206 + 4.7712, 4);
    expect(u).toBe(2.5);
  });

  test("one near and one far: 10·lg(10⁴ + 10⁴/4)", () => {
    expect(levelAtSeat(at1m, [1, 2]).value).toBeCloseTo(40.9691, 4);
  });

  test("two equal ones at 50 dB: 53.010", () => {
    expect(levelAtSeat({ ...at1m, value: 50 }, [1, 1]).value).toBeCloseTo(53.01, 3);
  });

  test("no units, or no distance, is refused", () => {
    expect(() => levelAtSeat(at1m, [])).toThrow(RangeError);
    expect(() => levelAtSeat(at1m, [1, 0])).toThrow(RangeError);
  });
});

describe("cost in a year", () => {
  const running = { hoursPerYear: 2400, powerW: 60, pricePerKwh: 0.3, filterSetPrice: 50, filterLifeHours: 4800 };

  test("two units, by hand: 2·60 W·2400 h at 0.30, and one set of filters between them", () => {
    const { electricity, filters, total } = yearlyCost(2, running);
    expect(electricity).toBeCloseTo(86.4, 10);
    expect(filters).toBeCloseTo(50, 10);
    expect(total).toBeCloseTo(136.4, 10);
  });

  test("what is not known stays unknown", () => {
    expect(yearlyCost(1, { ...running, powerW: null })).toMatchObject({ electricity: null, total: null });
    expect(yearlyCost(1, { ...running, filterLifeHours: null })).toMatchObject({ filters: null, total: null });
    expect(() => yearlyCost(1, { ...running, filterLifeHours: 0 })).toThrow(RangeError);
  });
});
