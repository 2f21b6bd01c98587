import type { CleanAirDeliveryRate } from "./clean-air-delivery-rate.ts";
import { MOST_MINUTES, type PlannedTrial, type PlanQuestion, planTrialFrom } from "./planned-trial.ts";

interface Lengths {
  /** How long to log with the cleaner on, and with it off. */
  readonly minutes: number;
  readonly naturalMinutes: number;
}

export interface TestPlan extends Lengths {
  /** Aerosol at the start of each decay over that of the clean air. */
  readonly startOverBackground: number;
  readonly expected: CleanAirDeliveryRate;
  readonly reachable: boolean;
  /** Part of the budget that is largest. */
  readonly dominant: string;
  /** How many such trials in this room reach it; null where the volume stands in the way, or a hundred would not do. */
  readonly trials: number | null;
  /** u(V) in m³ that would do with these lengths; null where none would. */
  readonly volumeUNeededM3: number | null;
  readonly naturalPerH: number;
}

/** Aerosol to choose from, over the clean air: a clean-air lead must stay under 5 % of the peak. */
const STARTS = [20, 30, 50, 100, 200, 300, 500, 1000];
/** What is out of reach is planned to within 5 % of the best there is: more time would hardly show. */
const NEAR_BEST = 1.05;
/** Ten minutes in a hundred are worth half the smoke. */
const NEAR_SHORTEST = 1.1;
/** More trials than this are no advice (common practice, no source). */
const MOST_TRIALS = 100;

/**
 * The shortest test, total and natural minutes together, whose expected u(CADR) [m³/h] is at most the wanted one, begun
 * with the least aerosol that costs at most a tenth more time. u by Fisher's information of both decays (planned-decay)
 * and the volume's own u, combined as in the analysis: JCGM 100:2008 eq. 10.
 * @throws AnalysisError "too-short" where the interval leaves too few readings of the decay, "less-than-one-halving"
 */
export function planTest(question: PlanQuestion): TestPlan {
  const { volumeM3, cadrM3PerH, wantedUM3PerH: wanted } = question;
  const candidates = startsToTry(question).map((start) => {
    const trial = planTrialFrom(question, start);
    return { trial, best: trial.at(MOST_MINUTES, MOST_MINUTES).cadrM3PerH.u };
  });
  const best = Math.min(...candidates.map((candidate) => candidate.best));
  const reachable = best <= wanted;
  const aim = reachable ? wanted : NEAR_BEST * best;
  const { trial, lengths } = leastAerosol(
    candidates.flatMap((candidate) =>
      candidate.best <= aim ? [{ trial: candidate.trial, lengths: shortest(candidate.trial, aim) }] : [],
    ),
  );
  const expected = trial.at(lengths.minutes, lengths.naturalMinutes);
  const volumeU = expected.budget.find(({ source }) => source === "volume")!.u;
  const fitsU = volumeM3.value * expected.kDifferencePerH.u;
  // Repeats in one room share its volume: only what the fits add averages out.
  const left = wanted ** 2 - volumeU ** 2;
  const repeats = left > 0 ? Math.ceil(fitsU ** 2 / left) : Infinity;
  return {
    ...lengths,
    startOverBackground: trial.startOverBackground,
    expected,
    reachable,
    dominant: expected.budget.reduce((a, b) => (b.u > a.u ? b : a)).source,
    trials: reachable ? 1 : repeats <= MOST_TRIALS ? repeats : null,
    volumeUNeededM3: fitsU < wanted ? (volumeM3.value * Math.sqrt(wanted ** 2 - fitsU ** 2)) / cadrM3PerH : null,
    naturalPerH: trial.naturalPerH,
  };
}

function leastAerosol<T extends { readonly lengths: Lengths }>(plans: readonly T[]): T {
  const minutes = ({ lengths }: T) => lengths.minutes + lengths.naturalMinutes;
  const least = Math.min(...plans.map(minutes));
  return plans.find((plan) => minutes(plan) <= NEAR_SHORTEST * least)!;
}

function startsToTry(question: PlanQuestion): number[] {
  const most = greatestStart(question);
  return [...STARTS.filter((start) => start < most), most];
}

/**
 * Most aerosol over the clean air: a fifth of the counter's stated maximum (dead time), and so little that coagulation,
 * b = 3600·K·N, stays under 1 % of CADR/V (K = 7·10⁻¹⁰ cm³/s near 0.1 µm; computed), though never under the least above.
 */
function greatestStart({ cleanAirPerCm3, counter, cadrM3PerH, volumeM3 }: PlanQuestion): number {
  const greatest = STARTS.at(-1)!;
  if (cleanAirPerCm3 === null) return greatest;
  const coagulating = (0.01 * cadrM3PerH) / volumeM3.value / (3600 * 7e-10) / cleanAirPerCm3;
  const counted =
    counter.maxConcentrationPerCm3 === null ? greatest : (0.2 * counter.maxConcentrationPerCm3) / cleanAirPerCm3;
  return Math.min(greatest, counted, Math.max(STARTS[0]!, coagulating));
}

/** The least sum of both lengths, in whole minutes, with u(CADR) at most `wantedU`, which the longest must reach. */
function shortest(trial: PlannedTrial, wantedU: number): Lengths {
  let found = { minutes: MOST_MINUTES, naturalMinutes: MOST_MINUTES };
  for (let minutes = trial.leastMinutes; minutes <= MOST_MINUTES; minutes++) {
    if (minutes + trial.leastNaturalMinutes >= found.minutes + found.naturalMinutes) break;
    const reaches = (natural: number) => trial.at(minutes, natural).cadrM3PerH.u <= wantedU;
    if (!reaches(MOST_MINUTES)) continue;
    let [low, high] = [trial.leastNaturalMinutes - 1, MOST_MINUTES];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (reaches(middle)) high = middle;
      else low = middle;
    }
    if (minutes + high < found.minutes + found.naturalMinutes) found = { minutes, naturalMinutes: high };
  }
  return found;
}
