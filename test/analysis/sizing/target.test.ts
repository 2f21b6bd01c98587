import { describe, expect, test } from "vitest";
import { airInRoom } from "../../../analysis/sizing/air-in-room.ts";
import { neededCadr, type Target } from "../../../analysis/sizing/target.ts";
import cdc from "../../fixtures/cdc-table-b1.fixture.json" with { type: "json" };

const sure = (value: number) => ({ value, u: 0, dof: Infinity });
const room = (volumeM3: number, naturalPerH: number) => ({ volumeM3: sure(volumeM3), naturalPerH: sure(naturalPerH) });

describe("CDC Table B.1 (2003) and its forerunner of 1994", () => {
  const rows = cdc.cases.flatMap(({ efficiencies, rows }) =>
    (rows as [number, number[]][]).flatMap(([ach, minutes]) =>
      efficiencies.map((removed, i) => ({ ach, removed, printed: minutes[i]! })),
    ),
  );

  test.each(rows)("$ach air changes an hour remove $removed in $printed minutes", ({ ach, removed, printed }) => {
    const { clearance } = airInRoom(30 * ach, 30, 0);
    expect(Math.round(clearance.find((each) => each.removed === removed)!.minutes!)).toBe(printed);
  });

  test.each(rows)("$removed in $printed minutes asks for about $ach air changes", ({ ach, removed, printed }) => {
    const { value } = neededCadr({ kind: "clearance", removed, minutes: printed }, room(30, 0));
    const rounding = 0.5 / (printed - 0.5); // the table prints whole minutes
    expect(Math.abs(value / 30 / ach - 1)).toBeLessThanOrEqual(rounding);
  });
});

describe("what a target needs, by hand", () => {
  test("five air changes added in 30 m³ are 150 m³/h, whatever is lost by itself", () => {
    expect(neededCadr({ kind: "air-changes", perHour: 5 }, room(30, 0.7)).value).toBeCloseTo(150, 10);
  });

  test("99 % in 30 minutes: (2·4.60517 − 0.5)·30 = 261.31 m³/h", () => {
    const needed = neededCadr({ kind: "clearance", removed: 0.99, minutes: 30 }, room(30, 0.5));
    expect(needed.value).toBeCloseTo(261.31, 2);
    expect(airInRoom(needed.value, 30, 0.5).clearance[1]!.minutes).toBeCloseTo(30, 9);
  });

  test("a fifth of the level asks for CADR/V = 4·k_n: 60 m³/h in 30 m³ at 0.5 /h", () => {
    const needed = neededCadr({ kind: "ratio", ratio: 0.2 }, room(30, 0.5));
    expect(needed.value).toBeCloseTo(60, 10);
    expect(airInRoom(needed.value, 30, 0.5).steadyRatio).toBeCloseTo(0.2, 12);
  });

  test("what natural loss does alone needs nothing", () => {
    expect(neededCadr({ kind: "clearance", removed: 0.9, minutes: 60 }, room(30, 3)).value).toBeLessThan(0);
  });

  test("u comes from the volume and the loss: 4·√((0.5·1.5)² + (30·0.1)²)", () => {
    const own = { volumeM3: { value: 30, u: 1.5, dof: Infinity }, naturalPerH: { value: 0.5, u: 0.1, dof: 12 } };
    const { u, dof, relativeU } = neededCadr({ kind: "ratio", ratio: 0.2 }, own);
    expect(u).toBeCloseTo(4 * Math.hypot(0.5 * 1.5, 30 * 0.1), 10);
    expect(relativeU).toBeCloseTo(0.05, 12);
    expect(dof).toBe(12);
    expect(neededCadr({ kind: "air-changes", perHour: 5 }, own).dof).toBe(Infinity);
  });

  test.each<Target>([
    { kind: "air-changes", perHour: 0 },
    { kind: "clearance", removed: 1, minutes: 30 },
    { kind: "clearance", removed: 0.9, minutes: Number.NaN },
    { kind: "ratio", ratio: 1 },
    { kind: "ratio", ratio: 0 },
  ])("refuses %o", (target) => expect(() => neededCadr(target, room(30, 0.5))).toThrow(RangeError));
});

test("half-life, and what never clears: by hand", () => {
  const air = airInRoom(180, 30, 0.3);
  expect(air.airChangesPerH).toBe(6);
  expect(air.halfLifeMinutes).toBeCloseTo((60 * Math.LN2) / 6.3, 10);
  expect(air.steadyRatio).toBeCloseTo(0.3 / 6.3, 12);
  expect(airInRoom(-30, 30, 0.3)).toMatchObject({ halfLifeMinutes: null, steadyRatio: null });
  expect(airInRoom(180, 30, 0).steadyRatio).toBeNull();
  expect(() => airInRoom(180, 0, 0.3)).toThrow(RangeError);
});
