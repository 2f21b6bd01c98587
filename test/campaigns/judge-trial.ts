import { analyseTrial } from "../../analysis/analyse-trial.ts";
import type { BandResult } from "../../analysis/analysis.ts";
import { AnalysisError } from "../../analysis/analysis-error.ts";
import { consensus } from "../../analysis/consensus.ts";
import { fitDecay } from "../../analysis/decay-fit.ts";
import { coverageFactor95, type Estimate, interval95 } from "../../analysis/estimate.ts";
import { logLinearFit } from "../../analysis/log-linear-fit.ts";
import { type UncertaintyPart, welchSatterthwaite } from "../../analysis/welch-satterthwaite.ts";
import { type DecayEvidence, decayEvidence } from "./decay-evidence.ts";
import { fitGivenNoise, fitWithoutMemory } from "./given-noise-fit.ts";
import { createDice, type Kind, type Occasion } from "./occasion.ts";

/** What is kept of one simulated trial; null where the fit in question gives nothing. */
export interface Verdict {
  readonly kind: string;
  readonly seed: number;
  readonly number: number;
  /** Code of the refusal, null where there is a result. */
  readonly refused: string | null;
  readonly covered: boolean;
  /** U95/CADR of the true CADR: of the result, and of a fit that knows the noise. */
  readonly relativeU: number | null;
  readonly oracleU: number | null;
  /** (CADR − true)/u. */
  readonly z: number | null;
  /** Relative errors of k_total − k_natural: no volume in them. */
  readonly error: number | null;
  readonly oracleError: number | null;
  /** By the log-linear fit with the given background (its reading, else nothing) taken off. */
  readonly logLinearError: number | null;
  readonly findings: readonly string[];
  readonly told: boolean;
  /** Whether what breaks the model shifts k_total − k_natural by more than u: the shift with counters that hardly err. */
  readonly matters: boolean;
  /** Whether the interval still holds with one part of the method switched off. */
  readonly without: { readonly background: boolean; readonly memory: boolean; readonly satterthwaite: boolean };
  /** The fits of the campaign, fed as the engine's is, give the engine's k: else its columns speak of another method. */
  readonly retraced: boolean;
}

/** Trial `number` of a kind in the campaign of this seed, simulated and judged. */
export function judgeTrial(kind: Kind, seed: number, number: number): Verdict {
  const occasion = kind.draw(createDice(seed, kind.name, number));
  const { trial, band, cadrM3PerH, kAddedPerH, noise } = occasion;
  const analysis = analyseTrial(trial);
  const result = analysis.results.find((r) => r.band.name === band);
  const evidence = decayEvidence(occasion, result);
  const others = result ? otherParts(result) : [];
  const covariance = result ? sharedCovariance(result) : 0;
  const rate = (fit: (decay: DecayEvidence) => Estimate, parts: readonly UncertaintyPart[], shared = covariance) =>
    rateBy(occasion, evidence, fit, parts, shared);
  const holds = (estimate: Estimate | null) => {
    if (estimate === null) return false;
    const { low, high } = interval95(estimate);
    return low <= cadrM3PerH && cadrM3PerH <= high;
  };
  const oracle = noise && rate((decay) => fitGivenNoise(decay.readings, decay.prior, noise.get(decay.counter)!), []);
  const counting = (decay: DecayEvidence) => noise?.get(decay.counter)?.countingQ ?? 1e-9;
  const unmemoried = rate((d) => fitWithoutMemory(d.readings, d.prior, counting(d)), others);
  const free = rate(({ readings }) => fitDecay(readings, freeBackground(readings.values)).kPerH, others, 0);
  const logLinear = rateOfFirst(evidence);
  const cadr = result?.cadrM3PerH ?? null;
  const findings = result?.findings.map(({ code }): string => code) ?? [];
  const relative = (k: number | null) => (k === null ? null : k / kAddedPerH - 1);
  return {
    kind: kind.name,
    seed,
    number,
    refused: result ? null : (analysis.refusals.find((r) => r.band === band || r.band === null)?.code ?? "no-result"),
    covered: holds(cadr),
    relativeU: cadr && (coverageFactor95(cadr.dof) * cadr.u) / cadrM3PerH,
    oracleU: oracle && (coverageFactor95(oracle.dof) * oracle.u) / cadrM3PerH,
    z: cadr && (cadr.value - cadrM3PerH) / cadr.u,
    error: relative(result?.kDifferencePerH.value ?? null),
    oracleError: relative(oracle && oracle.value / trial.room.volumeM3.value),
    logLinearError: relative(logLinear),
    findings,
    told: findings.some((code) => kind.rightFindings.includes(code)),
    matters: !kind.modelled && cadr !== null && Math.abs(shiftOf(kind, seed, number)) * cadrM3PerH > cadr.u,
    without: {
      background: holds(free),
      memory: holds(unmemoried),
      satterthwaite: holds(cadr && { ...cadr, dof: Infinity }),
    },
    retraced: result === undefined || retraces(result, evidence),
  };
}

/** Relative error of k_total − k_natural of the same occasion with counters that hardly err; 0 where they give no result. */
function shiftOf(kind: Kind, seed: number, number: number): number {
  const { trial, band, kAddedPerH } = kind.drawQuiet(createDice(seed, kind.name, number));
  const result = analyseTrial(trial).results.find((r) => r.band.name === band);
  return result ? result.kDifferencePerH.value / kAddedPerH - 1 : 0;
}

/** Covariance of CADR's two decays by the background they share, (m³/h)². A fit that takes nothing from it has none. */
function sharedCovariance({ budget }: BandResult): number {
  return (budget.find(({ source }) => source === "shared_background")?.u ?? 0) ** 2 / 2;
}

/** Components of the budget that no fit of a decay gives: findings. Their dof is the method's, 8. */
function otherParts({ budget }: BandResult): UncertaintyPart[] {
  const ofFits = ["volume", "total_fit", "natural_fit", "counters", "shared_background"];
  return budget.filter(({ source, u }) => !ofFits.includes(source) && u > 0).map(({ u }) => ({ u, dof: 8 }));
}

/** CADR as the engine makes it, from k of another fit; null where that fit refuses. */
function rateBy(
  { trial }: Occasion,
  evidence: readonly DecayEvidence[],
  fit: (decay: DecayEvidence) => Estimate,
  others: readonly UncertaintyPart[],
  covariance: number,
): Estimate | null {
  try {
    const volume = trial.room.volumeM3;
    const byCounter = [...Map.groupBy(evidence, ({ counter }) => counter).values()];
    const shared = (covariance * byCounter.length) / volume.value ** 2;
    const perCounter = byCounter.map((decays): Estimate => {
      const of = (phase: DecayEvidence["phase"]) =>
        consensus(decays.filter((d) => d.phase === phase).map(fit)).estimate;
      const [total, natural] = [of("total"), of("natural")];
      // A fit surer of both k shares less with itself than the engine's.
      const ofThese = Math.min(shared, total.u * natural.u);
      return { value: total.value - natural.value, ...welchSatterthwaite([total, natural], ofThese) };
    });
    const { estimate } = consensus(perCounter);
    const parts = [
      { u: Math.abs(estimate.value) * volume.u, dof: volume.dof },
      { u: volume.value * estimate.u, dof: estimate.dof },
      ...others,
    ];
    return { value: volume.value * estimate.value, ...welchSatterthwaite(parts) };
  } catch (error) {
    if (error instanceof AnalysisError || error instanceof RangeError) return null;
    throw error;
  }
}

/** k_total − k_natural of the first counter by the log-linear fit, the given background taken off. */
function rateOfFirst(evidence: readonly DecayEvidence[]): number | null {
  const line = (phase: DecayEvidence["phase"]) => {
    const decay = evidence.find((d) => d.phase === phase);
    if (decay === undefined) throw new AnalysisError("no-total-decay");
    const { tS, values } = decay.readings;
    const tHours = tS.map((t) => (t - tS[0]!) / 3600);
    return logLinearFit(tHours, values, decay.backgroundReading?.value ?? 0).kPerH;
  };
  try {
    return line("total") - line("natural");
  } catch (error) {
    if (error instanceof AnalysisError) return null;
    throw error;
  }
}

/** A prior so wide that it says nothing. */
function freeBackground(values: Float64Array) {
  const sd = 1000 * values.reduce((a, b) => Math.max(a, b), 0);
  return () => ({ mean: 0, sd });
}

function retraces({ total }: BandResult, evidence: readonly DecayEvidence[]): boolean {
  return total.decays.every(({ counter, kPerH }) => {
    const decay = evidence.find((d) => d.phase === "total" && d.counter === counter)!;
    const again = fitDecay(decay.readings, decay.prior).kPerH;
    return Math.abs(again.value - kPerH.value) < 0.02 * kPerH.u;
  });
}
