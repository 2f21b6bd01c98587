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
  readonly errorOverShownLine: number;
  readonly meanZ: number;
  readonly told: number;
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

export function coverageRow(kind: string, all: readonly Verdict[]): CoverageRow {
  const excused = ({ refused, oracleU }: Verdict) => refused !== null && oracleU !== null && oracleU > HOPELESS_U;
  const judged = all.filter((v) => !excused(v));
  const share = (test: (v: Verdict) => boolean, among = judged) => among.filter(test).length / among.length;
  const numbers = (of: (v: Verdict) => number | null) => judged.map(of).filter((x) => x !== null);
  // Of the same trials on both sides, else the harder ones would count on one side only.
  const compared = judged.filter((v) => v.error !== null && v.logLinearError !== null);
  const rms = (of: (v: Verdict) => number | null, among = compared) =>
    Math.sqrt(among.reduce((sum, v) => sum + of(v)! ** 2, 0) / among.length);
  const withOracle = compared.filter((v) => v.oracleError !== null);
  const shown = compared.filter((v) => v.shownLineError !== null);
  const withBoth = judged.filter((v) => v.relativeU !== null && v.oracleU !== null);
  const z = numbers((v) => v.z);
  return {
    kind,
    trials: all.length,
    coverage: share((v) => v.covered),
    refused: share((v) => v.refused !== null),
    medianU: median(numbers((v) => v.relativeU)),
    uOverOracle: median(withBoth.map((v) => v.relativeU!)) / median(withBoth.map((v) => v.oracleU!)),
    errorOverLogLinear: rms((v) => v.error) / rms((v) => v.logLinearError),
    oracleOverLogLinear: rms((v) => v.oracleError, withOracle) / rms((v) => v.logLinearError, withOracle),
    errorOverShownLine: rms((v) => v.error, shown) / rms((v) => v.shownLineError, shown),
    meanZ: z.reduce((sum, x) => sum + x, 0) / z.length,
    told: share((v) => v.told),
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
    "err/shown",
    "mean z",
    "told %",
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
      figure(row.errorOverShownLine),
      figure(row.meanZ),
      unmodelled ? percent(row.told) : "",
      unmodelled ? percent(row.coverageTold) : "",
      unmodelled ? percent(row.coverageSilent) : "",
      `| ${percent(row.withoutBackground)}`,
      percent(row.withoutMemory),
      percent(row.withoutSatterthwaite),
      percent(row.retraced),
    ];
  });
  const widths = header.map((name, i) => Math.max(name.length, ...lines.map((line) => line[i]!.length)));
  return [header, ...lines]
    .map((line) =>
      line
        .map((cell, i) => cell.padEnd(widths[i]!))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}
