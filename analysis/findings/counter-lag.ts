import type { FittedShape } from "../added-column.ts";
import type { BandDecay } from "../counter-decays.ts";
import { decayLag, lagBias, plausibleLagS } from "../decay-lag.ts";
import type { DecayData } from "../decay-model.ts";
import { readingsBetween, unclipped } from "../readings.ts";
import { settlingTimeS } from "../settling-time.ts";
import type { Counter } from "../trial.ts";
import { biasOfDifference, decidingOf, type Evidence, shapeOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

const LAG_LEVEL = 0.05;
const WORTH_TELLING = 0.005;
/** Smoothing over more than this share of 1/k shapes the curve that is fitted. */
const LONG = 0.5;

/** What a counter's own smoothing does to the decays. */
export function counterLagFindings(evidence: Evidence): RaisedFinding[] {
  return [...unstatedFinding(evidence), ...longFinding(evidence)];
}

/**
 * Of counters that state no smoothing: a lag that their readings show, with the bias they show; else, of those that weigh, the
 * bias that a common one would make, where it is worth telling and they do not speak against it. Both are of known sign and count whole.
 */
function unstatedFinding(evidence: Evidence): RaisedFinding[] {
  const { counters, totalPerH } = evidence;
  const unstated = counters.filter(({ counter }) => counter.smoothing === null);
  const deciding = new Set(decidingOf(evidence));
  const tested = unstated.flatMap(({ counter, totals }) =>
    totals.map((decay) => ({
      decay,
      lag: decayLag(withWaited(decay, counter), decay.fit.kPerH.dof, waitedS(decay, counter)),
    })),
  );
  const level = LAG_LEVEL / tested.filter(({ decay }) => deciding.has(decay)).length;
  const shown = new Map(
    tested.flatMap(({ decay, lag }) => (lag && deciding.has(decay) && lag.p < level ? [[decay, lag.biasPerH]] : [])),
  );
  const told = biasOfDifference(evidence, (decay) => shown.get(decay) ?? 0);
  if (shown.size > 0 && told < 0) {
    const message =
      "With the cleaner on, the readings begin to fall too slowly, as in a counter that lags or air that is not yet mixed, and the rate comes out too low. State the counter's smoothing or switch it off, and let a fan mix the room.";
    return [raised(evidence, "undeclared-lag", "warning", told, message, -told)];
  }
  const excluded = new Set(tested.flatMap(({ decay, lag }) => (lag && lag.pOfPlausible < LAG_LEVEL ? [decay] : [])));
  const possible = new Set(unstated.flatMap((e) => e.totals.filter((decay) => !excluded.has(decay))));
  const plausible = biasOfDifference(evidence, (decay, counter) =>
    possible.has(decay) && decay.readings.quantity === "mass"
      ? lagBias(shapeOf(decay), plausibleLagS(decay.fit.kPerH.value), waitedS(decay, counter))
      : 0,
  );
  if (!(Math.abs(plausible) > WORTH_TELLING * Math.abs(totalPerH.value))) return [];
  const message =
    "The counter's smoothing is not stated, and many that weigh average over a minute: that would shift the rate. State its smoothing, and the wait will be as long as it needs.";
  return [raised(evidence, "smoothing-unstated", "note", plausible, message, Math.abs(plausible))];
}

/** The value is k times the smoothing's time. */
function longFinding(evidence: Evidence): RaisedFinding[] {
  const share = ({ fit }: BandDecay, { smoothing }: Counter) =>
    smoothing === null ? 0 : (Math.max(0, fit.kPerH.value) * smoothing.timeS) / 3600;
  const longest = Math.max(...evidence.counters.flatMap((e) => e.totals.map((decay) => share(decay, e.counter))));
  if (!(longest > LONG)) return [];
  const bias = biasOfDifference(evidence, (decay, counter) => {
    const { smoothing } = counter;
    if (smoothing?.kind !== "lag" || share(decay, counter) <= LONG) return 0;
    return lagBias(shapeOf(decay), smoothing.timeS, waitedS(decay, counter));
  });
  const message =
    "The counter's smoothing takes so large a share of 1/k that it shapes the decay it is to measure. Use a quicker counter or less smoothing, or test in a larger room.";
  return [raised(evidence, "smoothing-long", "serious", longest, message, Math.abs(bias))];
}

function waitedS({ readings, fit }: BandDecay, counter: Counter): number {
  return settlingTimeS(counter, readings.quantity, fit.kPerH.value, readings.intervalS);
}

/** The fit with the readings before its window that were waited out: a lag shows most in them. */
function withWaited(decay: BandDecay, counter: Counter): FittedShape {
  const shape = shapeOf(decay);
  const startS = decay.readings.tS[0]!;
  const early = unclipped(readingsBetween(decay.all, startS - waitedS(decay, counter), startS));
  const count = early.tS.findIndex((t) => t >= startS);
  if (count <= 0) return shape;
  const { data } = shape;
  const join = (first: ArrayLike<number>, then: ArrayLike<number>) =>
    Float64Array.from([...Array.from(first), ...Array.from(then)]);
  const joined: DecayData = {
    ...data,
    tHours: join(
      early.tS.slice(0, count).map((t) => (t - startS) / 3600),
      data.tHours,
    ),
    values: join(early.values.slice(0, count), data.values),
    blockSizes: join(new Float64Array(count).fill(1), data.blockSizes ?? data.tHours.map(() => data.perBlock)),
  };
  return { ...shape, data: joined };
}
