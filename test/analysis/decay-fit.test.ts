import { describe, expect, test } from "vitest";
import { blockAverages } from "../../analysis/block-averages.ts";
import { fitDecay } from "../../analysis/decay-fit.ts";
import { dot } from "../../analysis/decay-model.ts";
import { whiten } from "../../analysis/decay-noise.ts";
import { median } from "../../analysis/median.ts";
import { invertPositiveDefinite } from "../../analysis/positive-definite.ts";
import type { Readings } from "../../analysis/readings.ts";
import { asCounted, decay, everyS, QUIET, seededNoise } from "./simulated-decay.ts";

const NOISE = { ...QUIET, sigma: 0.02, white: 0.005 };
const prior = () => ({ mean: 4, sd: 4 });
const tight = { mostBlocks: 400, settledGain: 1e-6, settledK: 1e-4 };
const unblocked = { ...tight, mostBlocks: Infinity };

function readingsOf(tS: Float64Array, seed: number, truth = decay(800, 4, 3)): Readings {
  const values = asCounted(tS, truth, NOISE, seededNoise(seed));
  const intervalS = tS[1]! - tS[0]!;
  return { tS, values, clipped: new Uint8Array(tS.length), stepQ: NOISE.step, intervalS, quantity: "mass" };
}

describe("how far a fit goes", () => {
  const decays = Array.from({ length: 200 }, (_, i) => readingsOf(everyS(6, 1800), i + 1));
  const fits = decays.map((readings) => fitDecay(readings, prior));

  test("k lies within 0.05 u of where it comes to rest, for 99 of 100 decays", () => {
    const off = fits.map(({ kPerH }, i) => {
      const rest = fitDecay(decays[i]!, prior, tight).kPerH;
      return Math.abs(kPerH.value - rest.value) / rest.u;
    });
    expect(off.filter((share) => share < 0.05).length).toBeGreaterThanOrEqual(198);
    expect(Math.max(...off)).toBeLessThan(0.2);
  });

  test("at most 60 whitening passes, for 99 of 100 decays", () => {
    expect(fits.filter(({ passes }) => passes <= 60).length).toBeGreaterThanOrEqual(198);
  });
});

describe("long logs, averaged to blocks", () => {
  // Averaging hides the white part among the memory, so single logs differ by what that is worth; on the whole none may.
  const tS = everyS(0.15, 3000).slice(0, 20_000);
  const pairs = Array.from({ length: 9 }, (_, i) => {
    const readings = readingsOf(tS, i + 21);
    return { blocked: fitDecay(readings, prior, tight), whole: fitDecay(readings, prior, unblocked) };
  });

  test("20 000 readings give k and u of the fit to all of them, to a few per cent of u", () => {
    const off = pairs.map(({ blocked, whole }) => (blocked.kPerH.value - whole.kPerH.value) / whole.kPerH.u);
    const wider = pairs.map(({ blocked, whole }) => Math.log(blocked.kPerH.u / whole.kPerH.u));
    expect(Math.abs(median(off))).toBeLessThan(0.05);
    expect(Math.abs(median(wider))).toBeLessThan(0.04);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.3);
  });

  test("and its memory, which means taken for points make longer by half", () => {
    const longer = pairs.map(({ blocked, whole }) => blocked.noise.tauH / whole.noise.tauH);
    expect(median(longer)).toBeGreaterThan(0.85);
    expect(median(longer)).toBeLessThan(1.15);
  });

  test("a counter silent for ten minutes leaves no block that spans the gap, and no reading is lost", () => {
    const broken = everyS(1, 3600).filter((t) => t < 701 || t > 1300);
    const data = blockAverages(readingsOf(broken, 5));
    expect([...data.tHours].filter((t) => t > 701 / 3600 && t < 1300 / 3600)).toEqual([]);
    expect(data.blockSizes!.reduce((a, b) => a + b, 0)).toBe(broken.length);
    const [blocked, whole] = [tight, unblocked].map((effort) => fitDecay(readingsOf(broken, 5), prior, effort).kPerH);
    expect(Math.abs(blocked!.value - whole!.value)).toBeLessThan(0.1 * whole!.u);
  });

  test("a short block weighs as the readings it has", () => {
    const data = blockAverages(readingsOf(everyS(1, 1000), 6), 400);
    expect(data.perBlock).toBe(3);
    expect([...data.blockSizes!.slice(-2)]).toEqual([3, 2]);
  });

  test("means of blocks are whitened as dense algebra whitens the covariance of such means", () => {
    const [tauH, m, n, hours] = [1 / 60, 5, 12, 1 / 600];
    const single = Float64Array.from({ length: n * m }, (_, i) => i * hours);
    const covariance = Array.from({ length: n }, (_, p) =>
      Array.from({ length: n }, (_, q) => {
        let sum = p === q ? m * 0.01 ** 2 : 0;
        for (let i = 0; i < m; i++) {
          for (let j = 0; j < m; j++) {
            sum += 0.02 ** 2 * Math.exp(-Math.abs(single[p * m + i]! - single[q * m + j]!) / tauH);
          }
        }
        return sum / m ** 2;
      }),
    );
    const tHours = Float64Array.from({ length: n }, (_, p) => (p * m + (m - 1) / 2) * hours);
    const r = Float64Array.from({ length: n }, (_, p) => 0.03 * Math.cos(3 * p));
    const grid = { tHours, expected: new Float64Array(n).fill(1), perBlock: m, stepQ: 0 };
    const { columns, logDet } = whiten({ sigma: 0.02, tauH, white: 0.01, countingQ: 0 }, grid, [r]);
    const { inverse, logDet: dense } = invertPositiveDefinite(covariance)!;
    expect(logDet).toBeCloseTo(dense, 8);
    expect(dot(columns[0]!, columns[0]!)).toBeCloseTo(
      dot(
        r,
        inverse.map((row) => dot(row, r)),
      ),
      8,
    );
  });
});
