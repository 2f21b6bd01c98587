import type { Analysis, Band, BandResult, FittedDecay } from "../analysis/analysis.ts";
import type { Estimate } from "../analysis/estimate.ts";
import { expectedElsewhere, type Spread } from "../analysis/expected-elsewhere.ts";
import type { ColumnRead } from "../analysis/reading/read-log.ts";
import type { RoomVolume } from "../analysis/room-volume.ts";
import type { PreparedRun } from "./trial-input.ts";
import type { AnalysisOut, BandResultOut, DecayOut } from "./wire/analysis.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import { quantityOut } from "./wire/quantity-out.ts";

/** A run and how it was read; a stored run was read when it came in. */
type Described = Pick<PreparedRun, "input"> & Partial<Pick<PreparedRun, "source">>;

/** The wire form of an analysis: units beside values, windows in seconds, and what each file's columns were taken for. */
export function writeAnalysis(analysis: Analysis, runs: readonly Described[], volume: RoomVolume): AnalysisOut {
  return {
    method_version: analysis.methodVersion,
    volume: { value: volume.volumeM3.value, unit: "m3", u: volume.volumeM3.u, basis: volume.basis },
    read: runs.map(({ input, source }) => ({
      run: input.index,
      rows: input.series.tS.length,
      columns: source && "read" in source ? (source.read.columns?.map(columnOut) ?? null) : null,
    })),
    phases: analysis.phases.map(({ run, phase, fromS, toS, why }) => ({ run, phase, from: fromS, to: toS, why })),
    results: analysis.results.map(bandResult),
    naturals: analysis.naturals.map(({ band, kPerH, decays }) => {
      return {
        band: bandOut(band),
        k: quantityOut(kPerH, "1/h"),
        half_life: halfLife(kPerH),
        counters: decays.map(decay),
      };
    }),
    refusals: analysis.refusals.map((refusal) => ({ ...refusal })),
    dropped: [
      ...runs.flatMap(({ input, source }) =>
        source && "read" in source
          ? source.read.dropped.map((drop) => ({ run: input.index, channel: null, ...drop }))
          : [],
      ),
      ...analysis.dropped.map((drop) => ({ ...drop })),
    ],
  };
}

function columnOut({ fromUm, toUm, ...column }: ColumnRead) {
  return { ...column, from_um: fromUm, to_um: toUm };
}

function bandOut({ kind, name, fromUm, toUm, coverage }: Band) {
  return { kind, name, from_um: fromUm, to_um: toUm, coverage };
}

function bandResult(result: BandResult): BandResultOut {
  const { band, total, natural } = result;
  return {
    band: bandOut(band),
    cadr: quantityOut(result.cadrM3PerH, "m3/h"),
    air_changes: quantityOut(result.kDifferencePerH, "1/h"),
    single_pass: result.singlePass && quantityOut(result.singlePass, "1"),
    monte_carlo: result.monteCarlo && {
      low: result.monteCarlo.lowM3PerH,
      high: result.monteCarlo.highM3PerH,
      unit: "m3/h",
      draws: result.monteCarlo.draws,
    },
    expected_elsewhere: null,
    budget: result.budget.map((part) => ({ ...part })),
    total: {
      k: quantityOut(total.kPerH, "1/h"),
      half_life: halfLife(total.kPerH),
      background: total.background,
      window: { from: total.window.fromS, to: total.window.toS, n: total.window.n, why: total.window.why },
      log_linear: logLinear(total.logLinear),
      counters: total.decays.map(decay),
    },
    natural: {
      source: natural.source,
      k: quantityOut(natural.kPerH, "1/h"),
      half_life: halfLife(natural.kPerH),
      counters: natural.decays.map(decay),
    },
    paired: result.paired,
    findings: result.findings.map(({ code, severity, message, value, effectM3PerH }) => ({
      code,
      severity,
      message,
      value,
      effect: effectM3PerH === null ? null : { value: effectM3PerH, unit: "m3/h" },
    })),
  };
}

function decay({ run, counter, kPerH, amplitude, background, window, logLinear: line }: FittedDecay): DecayOut {
  return {
    run,
    counter,
    k: quantityOut(kPerH, "1/h"),
    amplitude,
    background,
    window: { from: window.fromS, to: window.toS, n: window.n, why: window.why },
    log_linear: logLinear(line),
  };
}

function logLinear(line: FittedDecay["logLinear"]) {
  return line && { k: line.kPerH, u: line.uPerH, background: line.background };
}

/**
 * Half-life ln 2/k [min] with the interval of k turned over, which is not symmetric.
 * Null where k or the low end of its interval is not above 0: then no half-life can be told.
 */
export function halfLife(k: Estimate): QuantityOut | null {
  const rate = quantityOut(k, "1/h");
  if (!(rate.low > 0)) return null;
  const minutes = (perHour: number) => (60 * Math.LN2) / perHour;
  return {
    value: minutes(k.value),
    unit: "min",
    u: (minutes(k.value) * k.u) / k.value,
    dof: rate.dof,
    low: minutes(rate.high),
    high: minutes(rate.low),
  };
}

/** The analysis with what is made on reading: where another laboratory's result is expected. */
export function withExpectation(analysis: AnalysisOut, spread: Spread): AnalysisOut {
  const { relative, dof, source } = spread;
  return {
    ...analysis,
    results: analysis.results.map((result) => {
      const { value, u, dof: cadrDof, unit } = result.cadr;
      const expected = expectedElsewhere({ value, u, dof: cadrDof ?? Infinity }, spread);
      return { ...result, expected_elsewhere: { ...expected, unit, spread: { relative, dof, source } } };
    }),
  };
}
