import { parseArgs } from "node:util";
import {
  type EntryVerdict,
  FORTY,
  type Held,
  judgeRanks,
  judgeRegistry,
  THIRTY,
  type Way,
} from "./registry-verdict.ts";

/*
 * Do pooled intervals and ranks hold the truth? Simulates registries of 40 configurations measured by 25 laboratories with
 * errors of room, counter and volume, pools them with the spread learnt from each registry itself, and asks.
 *
 *   node test/campaigns/registry.ts --repetitions 200 --seed 20261201 [--rankings 1000]
 *
 * pooled: the interval given. assumed: with the assumed spread. plain: x ± t·u of the same figure. naive: mean ± t·s/√n over
 * trials. next: another laboratory inside the prediction; next plain: inside x ± t·u of it. bias: mean relative error.
 * Ends with 1 where a limit is broken: pooled 93–98 % in every row; ranks 94 %.
 */
const { values } = parseArgs({
  options: {
    repetitions: { type: "string", default: "200" },
    rankings: { type: "string", default: "1000" },
    seed: { type: "string", default: "20261201" },
  },
});
const [repetitions, rankings, seed] = [values.repetitions, values.rankings, values.seed].map(wholeNumber) as [
  number,
  number,
  number,
];

const verdicts = Array.from({ length: repetitions }, (_, i) => judgeRegistry(FORTY, seed, i)).flat();
const groups: [string, EntryVerdict[]][] = [
  ["1 laboratory", verdicts.filter(({ laboratories }) => laboratories === 1)],
  ["2 laboratories", verdicts.filter(({ laboratories }) => laboratories === 2)],
  ["3 laboratories", verdicts.filter(({ laboratories }) => laboratories === 3)],
  ["4 laboratories", verdicts.filter(({ laboratories }) => laboratories === 4)],
  ["5 to 10", verdicts.filter(({ laboratories }) => laboratories > 4)],
  ["1 room", verdicts.filter(({ rooms }) => rooms === 1)],
  ["2 rooms", verdicts.filter(({ rooms }) => rooms === 2)],
  ["3 rooms", verdicts.filter(({ rooms }) => rooms === 3)],
  ["all", verdicts],
];
const WIDTHS: [string, Way][] = [
  ["pooled", "pooled"],
  ["assumed", "assumed"],
  ["plain", "plain"],
  ["naive", "naive"],
  ["next", "next"],
  ["next plain", "nextPlain"],
];
const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(11);
console.log(`${repetitions} registries of ${FORTY.length} configurations, seed ${seed}\n`);
console.log(
  ["entries with   ", ...WIDTHS.map(([name]) => name), "bias", "naive bias", "half-width", "naive"]
    .map((name, i) => (i ? name.padStart(11) : name))
    .join(""),
);
for (const [name, group] of groups) {
  const of = (way: Way, figure: (held: Held) => number) =>
    group.reduce((sum, each) => sum + figure(each[way]), 0) / group.length;
  const coverage = WIDTHS.map(([, way]) => percent(of(way, ({ held }) => Number(held))));
  const rest = [
    of("pooled", ({ error }) => error),
    of("naive", ({ error }) => error),
    median(group.map(({ pooled }) => pooled.half)),
    median(group.map(({ naive }) => naive.half)),
  ];
  console.log([name.padEnd(15), ...coverage, ...rest.map(percent)].join(""));
}
const spreads = verdicts.map(({ spread }) => spread).sort((a, b) => a - b);
console.log(
  `\nspread learnt: median ${percent(median(spreads)).trim()}, from ${percent(spreads[0]!).trim()} to ${percent(spreads.at(-1)!).trim()}; true 13.2 %`,
);

const ranked = Array.from({ length: rankings }, (_, i) => judgeRanks(THIRTY, seed + 1, i));
const allHeld = ranked.filter(({ held }) => held).length / Math.max(1, rankings);
const width = ranked.reduce((sum, { meanWidth }) => sum + meanWidth, 0) / Math.max(1, rankings);
console.log(
  `ranks: all true ranks inside in ${percent(allHeld).trim()} of ${rankings} registries of 30; mean width ${width.toFixed(2)}`,
);

const broken = groups
  .map(([name, group]) => [name, group.filter(({ pooled }) => pooled.held).length / group.length] as const)
  .filter(([, share]) => !(share >= 0.93 && share <= 0.98))
  .map(([name, share]) => `${name}: ${percent(share).trim()} is not from 93 to 98 %`);
if (rankings > 0 && !(allHeld >= 0.94)) broken.push(`ranks hold in ${percent(allHeld).trim()}, not 94 %`);
console.log(broken.length === 0 ? "\nall limits hold" : `\n${broken.join("\n")}`);
process.exitCode = broken.length === 0 ? 0 : 1;

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1]!;
}

function wholeNumber(text: string): number {
  const number = Number(text);
  if (!(Number.isSafeInteger(number) && number >= 0)) throw new RangeError(`a whole number, not ${text}`);
  return number;
}
