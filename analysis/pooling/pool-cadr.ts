import type { Spread } from "../expected-elsewhere.ts";
import { welchSatterthwaite } from "../welch-satterthwaite.ts";
import { betweenVariance } from "./between-variance.ts";
import { type Laboratory, laboratoriesOf } from "./laboratory.ts";
import type { Member } from "./member.ts";
import { type Interval, intervalOf, type PartRelative } from "./part-relative.ts";
import { cochranQ, type RandomEffects, randomEffects, type Study, shareBetween } from "./random-effects.ts";

/** The pooled clean air delivery rate of an entry [m³/h] with its 95 % interval. */
export interface PooledCadr extends PartRelative, Interval {
  /** Where another laboratory's figure is expected. */
  readonly prediction: PartRelative & Interval;
  /** SD between laboratories, and as a share of the value; the share is null where the value is 0. */
  readonly tauM3PerH: number;
  readonly tau: number | null;
  /** Share of the laboratories' scatter beyond their own u, and Cochran's Q; null with one laboratory. */
  readonly i2: number | null;
  readonly q: number | null;
  readonly trials: number;
  readonly rooms: number;
  readonly submitters: number;
  /** The largest change of the value when one submitter is left out, weights as they are; null with one. */
  readonly leftOutChangeM3PerH: number | null;
  readonly laboratories: readonly Laboratory[];
  /** What each laboratory weighs in the value. */
  readonly weights: readonly number[];
  /** max(1, q) by Knapp and Hartung: the factor on u². */
  readonly widening: number;
}

/** From as many laboratories on their own scatter tells how far they differ. */
const SELF_SUFFICIENT = 5;
/** A spread beyond half the value is not a share of it any more, but noise about next to nothing. */
const MOST_RELATIVE = 0.5;
/** A share of u, far under any digit that is shown. */
const SETTLED = 1e-9;
const MOST_ROUNDS = 50;

/**
 * Random-effects mean over laboratories, weights 1/(u² + τ²). With k ≥ 5 of them τ² by restricted likelihood, u by Knapp and
 * Hartung with its factor at least 1, t at k − 1. With fewer τ² = (d₀s² + (k−1)τ̂²)/(d₀ + k − 1), s being what laboratories
 * differ by in the whole registry, and t at d₀ + k − 1, or at fewer where the laboratories' own u are known by fewer. All u
 * are taken at the pooled value itself, found by repeating.
 * For the next laboratory u² + τ², with τ of the few whatever k: the scatter of five to ten alone holds it 92 % of the time.
 * @throws RangeError without members
 */
export function poolCadr(members: readonly Member[], spread: Spread): PooledCadr {
  if (members.length === 0) throw new RangeError("nothing to pool");
  let cadr = plainMean(laboratoriesOf(members, plainMean(laboratoriesOf(members, 0))));
  for (let round = 0; ; round++) {
    const pooled = poolAt(members, spread, cadr);
    if (Math.abs(pooled.value - cadr) <= SETTLED * pooled.u || round === MOST_ROUNDS) return pooled;
    cadr = pooled.value;
  }
}

export function plainMean(laboratories: readonly Laboratory[]): number {
  return laboratories.reduce((sum, { cadrM3PerH }) => sum + cadrM3PerH.value, 0) / laboratories.length;
}

function poolAt(members: readonly Member[], spread: Spread, cadrM3PerH: number): PooledCadr {
  const laboratories = laboratoriesOf(members, cadrM3PerH);
  const k = laboratories.length;
  const studies = laboratories.map(({ cadrM3PerH: { value, u } }) => ({ value, variance: u * u }));
  const own = k > 1 ? betweenVariance(studies) : 0;
  const enough = k >= SELF_SUFFICIENT;
  const perLent = (k - 1) / spread.dof; // own dof for each one lent
  const shrunk = ((spread.relative * cadrM3PerH) ** 2 + perLent * own) / (1 + perLent);
  const tau2 = enough ? own : shrunk;
  const mean = randomEffects(studies, tau2);
  const widening = enough ? Math.max(1, mean.q) : 1;
  const sumSquares = mean.weights.reduce((sum, w) => sum + w * w, 0);
  const dofWith = (spreadU: number) => dofOfFew(laboratories, mean, spreadU, spread.dof + k - 1);

  const share = (variance: number) =>
    mean.value === 0 ? 0 : Math.min(MOST_RELATIVE, Math.sqrt(variance) / Math.abs(mean.value));
  const fromVolumes = Math.hypot(...laboratories.map((one, i) => mean.weights[i]! * one.cadrM3PerH.relativeU));
  const pooled = {
    value: mean.value,
    u: mean.u * Math.sqrt(widening),
    dof: enough ? k - 1 : dofWith(Math.sqrt(tau2 * sumSquares)),
    relativeU: Math.hypot(fromVolumes, share(tau2) * Math.sqrt(sumSquares)),
  };
  const next = {
    value: mean.value,
    u: Math.sqrt(pooled.u ** 2 + shrunk),
    dof: dofWith(Math.sqrt(tau2 * sumSquares + shrunk)),
    relativeU: Math.hypot(pooled.relativeU, share(shrunk)),
  };
  return {
    ...pooled,
    ...intervalOf(pooled),
    prediction: { ...next, ...intervalOf(next) },
    tauM3PerH: Math.sqrt(tau2),
    tau: mean.value === 0 ? null : Math.sqrt(tau2) / Math.abs(mean.value),
    i2: k > 1 ? shareBetween(studies, own) : null,
    q: k > 1 ? cochranQ(studies) : null,
    trials: members.length,
    rooms: laboratories.reduce((sum, { rooms }) => sum + rooms.length, 0),
    submitters: k,
    leftOutChangeM3PerH: k > 1 ? leftOutChange(studies, mean) : null,
    laboratories,
    weights: mean.weights,
    widening,
  };
}

/** Welch and Satterthwaite over the spread and the laboratories' own u, at most the dof of the spread. */
function dofOfFew(laboratories: readonly Laboratory[], { weights }: RandomEffects, spreadU: number, spreadDof: number) {
  const own = laboratories.map(({ cadrM3PerH: { u, dof } }, i) => ({ u: weights[i]! * u, dof }));
  return Math.min(spreadDof, welchSatterthwaite([...own, { u: spreadU, dof: spreadDof }]).dof);
}

/** Without laboratory i the mean moves by w(μ − y)/(1 − w). The largest of these moves, with its sign. */
function leftOutChange(studies: readonly Study[], { value, weights }: RandomEffects): number {
  const changes = studies.map((study, i) => (weights[i]! * (value - study.value)) / (1 - weights[i]!));
  return changes.reduce((most, change) => (Math.abs(change) > Math.abs(most) ? change : most), 0);
}
