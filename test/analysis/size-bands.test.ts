import { expect, test } from "vitest";
import { bandColumns } from "../../analysis/size-bands.ts";
import type { Channel } from "../../analysis/trial.ts";
import { COUNTER, channelOf } from "./trial-of.ts";

const ROWS = [0, 1, 2];
const T = Float64Array.of(0, 1, 2);
const number = (id: string, values: number[], more: Partial<Channel>) =>
  channelOf(Float64Array.from(values), { id, quantity: "number", unit: "1/cm3", fromUm: null, toUm: null, ...more });
const bandsOf = (channels: Channel[]) => {
  const { columns, uncovered } = bandColumns(COUNTER, channels, ROWS, T);
  return { bands: Object.fromEntries(columns.map(({ band, column }) => [band.name, { band, column }])), uncovered };
};

test("0.3–1.0 µm covers 52 % of the smallest band on the log-size axis and stands for it whole", () => {
  const { bands } = bandsOf([number("a", [10, 20, 30], { fromUm: 0.3, toUm: 1, cumulative: "none" })]);
  expect(bands["0.1-1.0"]!.band.coverage).toBeCloseTo(0.52, 2);
  expect([...bands["0.1-1.0"]!.column.values]).toEqual([10, 20, 30]);
  expect(bands["c1/a"]!.band.kind).toBe("channel");
});

test("cumulative counts above a size are differenced; a bin half inside a band gives its share; the open top gives none", () => {
  const { bands, uncovered } = bandsOf([
    number("0.5", [100, 80, 60], { fromUm: 0.5, cumulative: "above" }),
    number("5", [10, 8, 6], { fromUm: 5, cumulative: "above" }),
  ]);
  const share = Math.log(3 / 0.5) / Math.log(5 / 0.5);
  expect(bands["0.5-3.0"]!.column.values[0]).toBeCloseTo(90 * share, 10);
  expect(bands["0.5-3.0"]!.band.coverage).toBeCloseTo(1, 10);
  expect(bands["5-11"]).toBeUndefined();
  expect(uncovered.map(({ name }) => name)).toEqual(["0.1-1.0"]);
});

test("cumulative counts below a size: the first bin enters only where the counter's lower limit is known", () => {
  const channels = (fromUm: number | null) => [
    number("1", [50, 40, 30], { fromUm, toUm: 1, cumulative: "below" }),
    number("2.5", [70, 55, 40], { fromUm, toUm: 2.5, cumulative: "below" }),
  ];
  expect(bandsOf(channels(null)).bands["0.1-1.0"]).toBeUndefined();
  expect([...bandsOf(channels(0.1)).bands["0.1-1.0"]!.column.values]).toEqual([50, 40, 30]);
});

test("the mass channel up to 2.5 µm is the mass band and mass enters no number band", () => {
  const { bands } = bandsOf([
    channelOf(Float64Array.of(1, 2, 3)),
    channelOf(Float64Array.of(4, 5, 6), { id: "pm10", toUm: 10 }),
  ]);
  expect(Object.keys(bands)).toEqual(["mass", "c1/pm2.5", "c1/pm10"]);
  expect(bands.mass!.band.coverage).toBeNull();
});

test("dead time takes the same share from every size: particles of any size blind the counter to all others", () => {
  const counter = { ...COUNTER, sampleFlowCm3PerS: 47, deadTimeS: 2e-6 };
  const truth = { ">0.3": 1000, ">0.5": 400, ">1": 50 };
  const kept = Math.exp(-1000 * 47 * 2e-6);
  const cumulative = Object.entries(truth).map(([id, perCm3]) =>
    number(id, [perCm3 * kept, 0, 0], { fromUm: Number(id.slice(1)), cumulative: "above" }),
  );
  const { columns } = bandColumns(counter, cumulative, ROWS, T);
  for (const [id, perCm3] of Object.entries(truth))
    expect(columns.find(({ band }) => band.name === `c1/${id}`)!.column.values[0]).toBeCloseTo(perCm3, 8);
  const bins = [600, 350, 50].map((perCm3, i) =>
    number(`b${i}`, [perCm3 * kept, 0, 0], { fromUm: [0.3, 0.5, 1][i]!, toUm: [0.5, 1, 3][i]!, cumulative: "none" }),
  );
  const middle = bandColumns(counter, bins, ROWS, T).columns.find(({ band }) => band.name === "c1/b1");
  expect(middle!.column.values[0]).toBeCloseTo(350, 8);
});
