import { AnalysisError } from "./analysis-error.ts";
import { assumedNaturalLoss } from "./assumed-natural-loss.ts";
import { type CleanAirDeliveryRate, cleanAirDeliveryRate } from "./clean-air-delivery-rate.ts";
import type { Estimate } from "./estimate.ts";
import { expectedCounterNoise, type StatedNoise } from "./expected-counter-noise.ts";
import { expectedUOfK, type PlannedSampling } from "./planned-decay.ts";
import { settlingTimeS } from "./settling-time.ts";
import type { Principle, Ventilation } from "./trial.ts";

/** A test that begins with a given amount of aerosol, at any lengths of its two decays. */
export interface PlannedTrial {
  readonly startOverBackground: number;
  readonly naturalPerH: number;
  /** Shorter runs raise findings: under 12 readings, under two halvings, under ten times the noise's memory. */
  readonly leastMinutes: number;
  readonly leastNaturalMinutes: number;
  readonly at: (minutes: number, naturalMinutes: number) => CleanAirDeliveryRate;
}

/** What is asked before a test is made. */
export interface PlanQuestion {
  readonly volumeM3: Estimate;
  readonly cadrM3PerH: number;
  readonly wantedUM3PerH: number;
  readonly intervalS: number;
  readonly counter: PlannedCounter;
  readonly ventilation: Ventilation;
  /** Natural loss in 1/h, null where it is still to be assumed. */
  readonly naturalPerH: number | null;
  /** Clean air's number concentration in 1/cm³, null where unknown. */
  readonly cleanAirPerCm3: number | null;
}

export interface PlannedCounter {
  readonly principle: Principle;
  readonly weighs: boolean;
  /** The time after a sudden change until its readings tell of what came after [s], null where it is not stated. */
  readonly smoothing: { readonly kind: "lag" | "moving_mean"; readonly timeS: number } | null;
  readonly maxConcentrationPerCm3: number | null;
  readonly noise: StatedNoise;
}

/** Minutes beyond which nobody logs one decay (common practice, no source). */
export const MOST_MINUTES = 240;
const LEAST_READINGS = 9;
const GOOD_READINGS = 12;
const GOOD_HALVINGS = 2;
/** A window should be ten times the memory of the noise. */
const MEMORIES = 10;
/** A total decay ends at 1 % of its start, with a counter that weighs at 8 of its steps if that comes first. */
const END_SHARE = 0.01;
const END_STEPS = 8;
const LONGEST_S = 60 * MOST_MINUTES;

/**
 * Expected CADR and its budget for two decays that both begin at `startOverBackground` times the clean air, each a run of
 * its own after a reading of the clean air: B of the natural one is that reading ± 30 %, the floor under the cleaner
 * follows by mass balance, m = C_bg·k_n/k ± m. Windows begin two readings after the peak, and after the counter settles.
 * @throws AnalysisError "too-short", "less-than-one-halving"
 */
export function planTrialFrom(question: PlanQuestion, startOverBackground: number): PlannedTrial {
  const { volumeM3, cadrM3PerH, intervalS, counter } = question;
  const naturalPerH = question.naturalPerH ?? assumed(question);
  const totalPerH = naturalPerH + cadrM3PerH / volumeM3.value;
  const sampling: PlannedSampling = {
    intervalS,
    ...expectedCounterNoise(counter.principle, intervalS, counter.weighs, counter.noise),
  };
  const leastSd = sampling.stepQ / Math.sqrt(12);
  const waitS = (kPerH: number) => 2 * intervalS + settleS(question, kPerH);

  const floor = naturalPerH / totalPerH;
  const amplitude = startOverBackground * Math.exp((-totalPerH * waitS(totalPerH)) / 3600);
  const horizonS = Math.min(LONGEST_S, endOfDecayS(totalPerH, amplitude, floor, sampling.stepQ));
  if (!(Math.floor(horizonS / intervalS) + 1 >= LEAST_READINGS)) throw new AnalysisError("too-short");
  if (!((totalPerH * horizonS) / 3600 >= Math.LN2)) throw new AnalysisError("less-than-one-halving");
  const total = expectedUOfK(
    { kPerH: totalPerH, amplitude, background: { mean: floor, sd: Math.max(floor, leastSd) } },
    sampling,
    horizonS,
  );
  const natural = expectedUOfK(
    { kPerH: naturalPerH, amplitude: startOverBackground, background: { mean: 1, sd: Math.max(0.3, leastSd) } },
    sampling,
    LONGEST_S,
  );
  const at = (minutes: number, naturalMinutes: number) => {
    const uTotal = total(60 * minutes - waitS(totalPerH));
    const uNatural = natural(60 * naturalMinutes - waitS(naturalPerH));
    if (!(uTotal + uNatural < Infinity)) throw new AnalysisError("too-short");
    return cleanAirDeliveryRate(volumeM3, {
      totalPerH: { value: totalPerH, u: uTotal, dof: Infinity },
      naturalPerH: { value: naturalPerH, u: uNatural, dof: Infinity },
      covariance: 0,
      others: [],
    });
  };

  const remembered = sampling.noise.sigma > sampling.noise.white ? MEMORIES * sampling.noise.tauH * 3600 : 0;
  const goodS = Math.max((GOOD_READINGS - 1) * intervalS, remembered);
  const halvedS = (GOOD_HALVINGS * Math.LN2 * 3600) / totalPerH;
  return {
    startOverBackground,
    naturalPerH,
    leastMinutes: wholeMinutes(Math.min(horizonS, Math.max(goodS, halvedS)) + waitS(totalPerH)),
    leastNaturalMinutes: wholeMinutes(Math.min(LONGEST_S, goodS) + waitS(naturalPerH)),
    at,
  };
}

/** Natural loss of the finest band, or of mass, where none is stated. */
function assumed({ volumeM3, ventilation, counter }: PlanQuestion): number {
  const band = { kind: "standard", name: "0.1-1.0", fromUm: 0.1, toUm: 1, coverage: 1 } as const;
  const room = { volumeM3, ventilation, mixingFan: "unknown" } as const;
  return assumedNaturalLoss(band, counter.weighs ? "mass" : "number", room).value;
}

function settleS({ counter, intervalS }: PlanQuestion, kPerH: number): number {
  const unstated = { id: "", model: null, sampleFlowCm3PerS: null, deadTimeS: null, maxConcentrationPerCm3: null };
  const { principle, smoothing, weighs } = counter;
  return settlingTimeS({ ...unstated, principle, smoothing }, weighs ? "mass" : "number", kPerH, intervalS);
}

/** When B + A·e^(−kt) falls to the level at which the analysis ends a total decay; infinite where it never does. */
function endOfDecayS(kPerH: number, amplitude: number, floor: number, stepQ: number): number {
  const start = amplitude + floor;
  const end = Math.max(END_SHARE * start, Math.min(END_STEPS * stepQ, 0.5 * start));
  return end > floor ? (3600 * Math.log(amplitude / (end - floor))) / kPerH : Infinity;
}

function wholeMinutes(seconds: number): number {
  return Math.min(MOST_MINUTES, Math.ceil(seconds / 60 - 1e-9));
}
