import type { Random } from "../../analysis/simulate/random.ts";
import { simulateLog } from "../../analysis/simulate/simulate-log.ts";
import { DRESSES, toCsv } from "../../analysis/simulate/to-csv.ts";
import { sampleScenario, sampleTrial } from "../support/sample-trial.ts";

/** A whole number below n. */
export const below = (random: Random, n: number): number => Math.floor(n * random.uniform());
const oneOf = <T>(random: Random, items: readonly T[]): T => items[below(random, items.length)]!;

/** Sound logs to start from: several dresses, clean air to cleaner on. */
const LOGS = Object.values(DRESSES).map((dress, i) => toCsv(simulateLog(sampleScenario(i + 1)).series, dress));

const CELLS = [
  "",
  "NaN",
  "inf",
  "-inf",
  "1e400",
  "-1",
  "0",
  "1e-320",
  "65535",
  "999.9",
  "1,5",
  "1.234.567",
  "—",
  "null",
  "\u0000",
  '"',
  "9".repeat(400),
];
const LINES = ["", "# a comment", ",,,,", '"', "time,pm2.5,AQI", "\ufeff", "0,0", ";;", "day 1", "2026-10-03 10:00,5"];

/** A log with a few things wrong with it. */
export function mutatedLog(random: Random): string {
  let text = oneOf(random, LOGS);
  for (let i = 1 + below(random, 4); i > 0; i--) text = oneOf(random, LOG_MUTATIONS)(text, random);
  return text;
}

type LogMutation = (text: string, random: Random) => string;

const byLine =
  (change: (lines: string[], at: number, random: Random) => void): LogMutation =>
  (text, random) => {
    const lines = text.split("\n");
    change(lines, below(random, lines.length), random);
    return lines.join("\n");
  };

const LOG_MUTATIONS: readonly LogMutation[] = [
  (text, random) => text.slice(0, below(random, text.length)),
  (text, random) => text.slice(below(random, text.length)),
  (text, random) => {
    const at = below(random, text.length);
    return text.slice(0, at) + String.fromCodePoint(below(random, 0x2ff)) + text.slice(at + 1);
  },
  (text, random) =>
    text.replaceAll(
      oneOf(random, [",", ";", ".", "\n", "0", "1", "e"]),
      oneOf(random, [",", ";", "\t", ".", "", "\r", " "]),
    ),
  (text) => text.split("\n").reverse().join("\n"),
  byLine((lines, at, random) => lines.splice(at, 1 + below(random, 200))),
  byLine((lines, at, random) => lines.splice(at, 0, oneOf(random, LINES))),
  byLine((lines, at, random) => lines.splice(at, 0, ...Array<string>(below(random, 300)).fill(lines[at] ?? ""))),
  byLine((lines, at, random) => {
    const length = 1 + below(random, 60);
    const column = below(random, 3);
    const cell = oneOf(random, CELLS);
    for (let i = at; i < Math.min(lines.length, at + length); i++) {
      const cells = lines[i]!.split(/([,;\t])/);
      if (cells.length > 2 * column) cells[2 * column] = cell;
      lines[i] = cells.join("");
    }
  }),
  byLine((lines, at, random) => {
    const other = below(random, lines.length);
    [lines[at], lines[other]] = [lines[other]!, lines[at]!];
  }),
];

const VALUES: readonly unknown[] = [
  null,
  -1,
  0,
  1e308,
  -1e-300,
  1e-12,
  1e12,
  "",
  "x",
  "1e400",
  [],
  {},
  true,
  [null],
  { value: 1 },
  "m3",
  "2026-01-01T00:00:00Z",
  "__proto__",
];

/** A trial with a few things wrong with it. */
export function mutatedTrial(random: Random): unknown {
  const trial = sampleTrial(1 + below(random, 5), { runs: undefined }) as Record<string, unknown>;
  const runs = sampleTrial(1 + below(random, 5)).runs.map(({ role, series }) => ({ role, series }));
  trial.runs = below(random, 3) === 0 ? runs.slice(0, 1 + below(random, 3)) : runs;
  for (let i = 1 + below(random, 4); i > 0; i--) mutateSomewhere(trial, random);
  return trial;
}

function mutateSomewhere(at: object, random: Random): void {
  const holder = at as Record<string, unknown>;
  const keys = Object.keys(holder);
  if (keys.length === 0) return;
  const key = oneOf(random, keys);
  const value = holder[key];
  if (typeof value === "object" && value !== null && random.uniform() < 0.85) {
    mutateSomewhere(value, random);
    return;
  }
  const how = below(random, 6);
  if (how === 0) delete holder[key];
  else if (how === 1 && typeof value === "number") holder[key] = value * 10 ** (below(random, 40) - 20);
  else if (how === 2 && Array.isArray(holder)) holder.splice(Number(key), 1 + below(random, 50));
  else if (how === 3) holder[oneOf(random, [...keys, "extra", "constructor"])] = value;
  else holder[key] = oneOf(random, VALUES);
}
