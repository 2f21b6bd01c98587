import { describe, expect, test } from "vitest";
import { createRandom } from "../../../analysis/simulate/random.ts";
import { airEnds } from "../../../analysis/sizing/air-ends.ts";
import { airInRoom } from "../../../analysis/sizing/air-in-room.ts";
import { neededCadr } from "../../../analysis/sizing/target.ts";
import { probabilityOfReaching } from "../../../analysis/sizing/units-needed.ts";

const known = (value: number, u = 0, dof = Infinity) => ({ value, u, dof });
/** 180 m³/h, as another laboratory would find it to 13 %. */
const PREDICTION = { value: 180, u: 0.13 * 180, dof: Infinity, relativeU: 0.13 };

describe("ends of what a cleaner does in a room", () => {
  test("30 m³ known to 2 %, loss 0.5 ± 0.1 /h: worked in a few lines of Python from the docstring's formulas", () => {
    const ends = airEnds(1, PREDICTION, { volumeM3: known(30, 0.6), naturalPerH: known(0.5, 0.1) });
    expect(ends.airChangesPerH.low).toBeCloseTo(4.611027375379738, 9);
    expect(ends.airChangesPerH.high).toBeCloseTo(7.807370694049553, 9);
    expect(ends.halfLifeMinutes.low).toBeCloseTo(4.9988844518824775, 9);
    expect(ends.halfLifeMinutes.high).toBeCloseTo(8.156630759825987, 9);
    expect(ends.clearance[1]!.removed).toBe(0.99);
    expect(ends.clearance[1]!.low).toBeCloseTo(33.211869407608035, 9);
    expect(ends.clearance[1]!.high).toBeCloseTo(54.19148176137681, 9);
    expect(ends.steadyRatio!.low).toBeCloseTo(0.04437088948553906, 9);
    expect(ends.steadyRatio!.high).toBeCloseTo(0.11193734349948493, 9);
  });

  test("an end is where the target is reached with a probability of 97.5 %, or of 2.5 %", () => {
    const prediction = { value: 180, u: 40, dof: 9, relativeU: 0.13 };
    const room = { volumeM3: known(42, 2), naturalPerH: known(0.8, 0.3, 8) };
    const ends = airEnds(2, prediction, room);
    for (const { removed, low, high } of ends.clearance) {
      const chance = (minutes: number) =>
        probabilityOfReaching(2, prediction, neededCadr({ kind: "clearance", removed, minutes }, room));
      expect(chance(high!)).toBeCloseTo(0.975, 6);
      expect(chance(low!)).toBeCloseTo(0.025, 6);
    }
    const ratioReached = (ratio: number) =>
      probabilityOfReaching(2, prediction, neededCadr({ kind: "ratio", ratio }, room));
    expect(ratioReached(ends.steadyRatio!.high)).toBeCloseTo(0.975, 6);
    expect(ratioReached(ends.steadyRatio!.low)).toBeCloseTo(0.025, 6);
  });

  test("where room and loss are known, the ends are those of the prediction", () => {
    const room = { volumeM3: known(30), naturalPerH: known(0.5) };
    const { airChangesPerH, clearance, steadyRatio } = airEnds(1, PREDICTION, room);
    const [weak, strong] = [airChangesPerH.low, airChangesPerH.high].map((per) => airInRoom(30 * per, 30, 0.5));
    expect(clearance[2]!.high).toBeCloseTo(weak!.clearance[2]!.minutes!, 9);
    expect(clearance[2]!.low).toBeCloseTo(strong!.clearance[2]!.minutes!, 9);
    expect(steadyRatio!.high).toBeCloseTo(weak!.steadyRatio!, 9);
    expect(steadyRatio!.low).toBeCloseTo(strong!.steadyRatio!, 9);
  });

  test("air that may never clear has no upper end; without a natural loss there is no ratio", () => {
    const doubtful = { value: 40, u: 60, dof: Infinity, relativeU: 0.13 };
    const ends = airEnds(1, doubtful, { volumeM3: known(30), naturalPerH: known(0) });
    expect(ends.halfLifeMinutes.high).toBeNull();
    expect(ends.halfLifeMinutes.low).toBeGreaterThan(0);
    expect(ends.steadyRatio).toBeNull();
    const lossless = airEnds(1, doubtful, { volumeM3: known(30), naturalPerH: known(0.5) });
    expect(lossless.steadyRatio!.high).toBe(1);
  });

  test("a loss that may be nothing leaves the ratio's lower end at nothing", () => {
    const room = { volumeM3: known(30), naturalPerH: known(0.8, 0.48, 8) }; // 0.8/0.48 is less than t
    const { low, high } = airEnds(1, PREDICTION, room).steadyRatio!;
    expect(low).toBe(0);
    expect(high).toBeGreaterThan(airInRoom(180, 30, 0.8).steadyRatio!);
  });

  test("they hold the truth in 95 % of simulated rooms", () => {
    const random = createRandom(20261130);
    const rounds = 4000;
    let held = 0;
    for (let i = 0; i < rounds; i++) {
      const [trueRate, trueVolume, trueLoss] = [180, 40, 0.6];
      const value = trueRate * (1 + 0.1 * random.normal());
      const room = {
        volumeM3: known(trueVolume * (1 + 0.04 * random.normal()), 0),
        naturalPerH: known(trueLoss + 0.1 * random.normal(), 0.1),
      };
      room.volumeM3.u = 0.04 * room.volumeM3.value;
      const seen = { value, u: 0.1 * value, dof: Infinity, relativeU: 0.1 };
      const { low, high } = airEnds(1, seen, room).clearance[1]!;
      const truth = airInRoom(trueRate, trueVolume, trueLoss).clearance[1]!.minutes!;
      held += Number(low! <= truth && truth <= high!) / rounds;
    }
    expect(Math.abs(held - 0.95)).toBeLessThan(0.012); // standard error 0.0034
  });
});
