import { median } from "../../analysis/median.ts";
import type { Verdict } from "./judge-trial.ts";
import type { Kind } from "./occasion.ts";

/** One row of the campaign's table: what its trials of one kind came to. */
export interface CoverageRow {
  readonly kind: string;
  readonly trials: number;
  readonly coverage: number;
  readonly refused: number;
  readonly medianU: number;
  readonly uOverOracle: number;
  readonly errorOverLogLinear: number;
  readonly oracleOverLogLinear: number;
  readonly meanZ: number;
  readonly told: number;
  /** Of the trials whose interval misses, the share that raises the right finding. */
  readonly toldOfMissed: number;
  /** Share of the trials that what breaks the model shifts by more than u, and of these the share that is told. */
  readonly matters: number;
  readonly toldWhereItMatters: number;
  /** Coverage of the trials that raise the right finding, and of those that do not. */
  readonly coverageTold: number;
  readonly coverageSilent: number;
  readonly withoutBackground: number;
  readonly withoutMemory: number;
  readonly withoutSatterthwaite: number;
  readonly retraced: number;
}

/** A refusal is a miss, unless a fit that knows the noise could not tell either: its U is over 50 %. */
const HOPELESS_U = 0.5;

const excused = ({ refused, oracleU }: Verdict) => refused !== null && oracleU !== null && oracleU > HOPELESS_U;

export function coverageOf(verdicts: readonly Verdict[]): number {
  const judged = verdicts.filter((v) => !excused(v));
  return judged.filter((v) => v.covered).length / judged.length;
}

export function coverageRow(kind: string, all: readonly Verdict[]): CoverageRow {
  const judged = all.filter((v) => !excused(v));
  const share = (test: (v: Verdict) => boolean, among = judged) => among.filter(test).length / among.length;
  const numbers = (of: (v: Verdict) => number | null) => judged.map(of).filter((x) => x !== null);
  // Of the same trials on both sides, else the harder ones would count on one side only.
  const compared = judged.filter((v) => v.error !== null && v.logLinearError !== null);
  const rms = (of: (v: Verdict) => number | null, among = compared) =>
    Math.sqrt(among.reduce((sum, v) => sum + of(v)! ** 2, 0) / among.length);
  const withOracle = compared.filter((v) => v.oracleError !== null);
  const withBoth = judged.filter((v) => v.relativeU !== null && v.oracleU !== null);
  const z = numbers((v) => v.z);
  return {
    kind,
    trials: all.length,
    coverage: coverageOf(all),
    refused: share((v) => v.refused !== null),
    medianU: median(numbers((v) => v.relativeU)),
    uOverOracle: median(withBoth.map((v) => v.relativeU!)) / median(withBoth.map((v) => v.oracleU!)),
    errorOverLogLinear: rms((v) => v.error) / rms((v) => v.logLinearError),
    oracleOverLogLinear: rms((v) => v.oracleError, withOracle) / rms((v) => v.logLinearError, withOracle),
    meanZ: z.reduce((sum, x) => sum + x, 0) / z.length,
    told: share((v) => v.told),
    matters: share((v) => v.matters),
    toldWhereItMatters: share(
      (v) => v.told,
      judged.filter((v) => v.matters),
    ),
    toldOfMissed: share(
      (v) => v.told,
      judged.filter((v) => !v.covered),
    ),
    coverageTold: share(
      (v) => v.covered,
      judged.filter((v) => v.told),
    ),
    coverageSilent: share(
      (v) => v.covered,
      judged.filter((v) => !v.told),
    ),
    withoutBackground: share((v) => v.without.background),
    withoutMemory: share((v) => v.without.memory),
    withoutSatterthwaite: share((v) => v.without.satterthwaite),
    retraced: share((v) => v.retraced),
  };
}

/** The table as text, shares in per cent; the columns after the bar switch one part of the method off. */
export function coverageTable(rows: readonly CoverageRow[], kinds: readonly Kind[]): string {
  const percent = (x: number) => (Number.isNaN(x) ? "–" : (100 * x).toFixed(1));
  const figure = (x: number) => (Number.isNaN(x) ? "–" : x.toFixed(2));
  const header = [
    "kind",
    "trials",
    "cover %",
    "refused %",
    "U %",
    "U/oracle",
    "err/logl",
    "oracle/logl",
    "mean z",
    "told %",
    "of missed",
    "shifted > u",
    "told of these",
    "cover told",
    "silent",
    "| no B",
    "no memory",
    "no dof",
    "retraced",
  ];
  const lines = rows.map((row) => {
    const unmodelled = kinds.some(({ name, modelled }) => name === row.kind && !modelled);
    return [
      row.kind + (unmodelled ? " *" : ""),
      String(row.trials),
      percent(row.coverage),
      percent(row.refused),
      percent(row.medianU),
      figure(row.uOverOracle),
      figure(row.errorOverLogLinear),
      figure(row.oracleOverLogLinear),
      figure(row.meanZ),
      unmodelled ? percent(row.told) : "",
      unmodelled ? percent(row.toldOfMissed) : "",
      unmodelled ? percent(row.matters) : "",
      unmodelled ? percent(row.toldWhereItMatters) : "",
      unmodelled ? percent(row.coverageTold) : "",
      unmodelled ? percent(row.coverageSilent) : "",
      `| ${percent(row.withoutBackground)}`,
      percent(row.withoutMemory),
      percent(row.withoutSatterthwaite),
      percent(row.retraced),
    ];
  });
  return aligned([header, ...lines]);
}

/** Coverage of one kind at each seed, and how far it lies from that of all seeds in standard errors √(p(1−p)/n). */
export function seedsOf(kind: string, verdicts: readonly Verdict[]) {
  const ofKind = verdicts.filter((v) => v.kind === kind);
  const joint = coverageOf(ofKind);
  return [...Map.groupBy(ofKind, ({ seed }) => seed)].map(([seed, own]) => {
    const coverage = coverageOf(own);
    const se = Math.sqrt((joint * (1 - joint)) / own.length);
    return { seed, coverage, deviationSe: se > 0 ? (coverage - joint) / se : 0 };
  });
}

export function seedTable(kinds: readonly string[], verdicts: readonly Verdict[], seeds: readonly number[]): string {
  const header = ["kind", ...seeds.map((seed) => `${seed} %`), "furthest SE"];
  const lines = kinds.map((kind) => {
    const own = seedsOf(kind, verdicts);
    const furthest = own.reduce((most, { deviationSe }) => Math.max(most, Math.abs(deviationSe)), 0);
    return [kind, ...own.map(({ coverage }) => (100 * coverage).toFixed(1)), furthest.toFixed(1)];
  });
  return aligned([header, ...lines]);
}

function aligned(lines: readonly (readonly string[])[]): string {
  const widths = lines[0]!.map((_, i) => Math.max(...lines.map((line) => line[i]!.length)));
  return lines
    .map((line) =>
      line
        .map((cell, i) => cell.padEnd(widths[i]!))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}
