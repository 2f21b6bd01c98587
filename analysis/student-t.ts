import { exp } from "./exp.ts";
import { logHalfStepGammaRatio } from "./gamma-ratio.ts";
import { log, log1p } from "./log.ts";

/**
 * Quantile t_p of Student's t: P(T ≤ t_p) = p, at ν = `dof` > 0 degrees of freedom, whole or not; ν = ∞ is the normal
 * distribution. Newton's method on the distribution function below; every formula is written in 1/ν, so that nothing
 * cancels as ν grows and ν = ∞ needs no case of its own. Relative error below 1e-13 for ν ≥ 1 and p from 1e-50; where a very
 * heavy tail beyond that makes t² overflow it refuses.
 * Integrals: NIST Digital Library of Mathematical Functions 8.17.
 * @throws RangeError unless 0 < p < 1 and ν > 0, or where it cannot tell
 */
export function tQuantile(p: number, dof: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability lies between 0 and 1, not ${p}`);
  requireDof(dof);
  const tail = Math.min(p, 1 - p);
  if (tail === 0.5) return 0;
  const t = tail > 0.25 ? centralRoot(0.5 - tail, dof) : tailRoot(log(tail), dof);
  return p < 0.5 ? -t : t;
}

/** P(T ≤ t) for Student's t with ν = `dof` > 0 degrees of freedom (∞: normal). @throws RangeError */
export function tCdf(t: number, dof: number): number {
  requireDof(dof);
  if (Number.isNaN(t)) throw new RangeError("t is not a number");
  if (t * t < SERIES_BELOW) return 0.5 + centralProbability(t, dof);
  const tail = exp(logTail(Math.abs(t), dof));
  return t < 0 ? tail : 1 - tail;
}

/** Where t² is smaller the power series is the quicker, above it the continued fraction. Both hold on either side. */
const SERIES_BELOW = 2;
const MAX_STEPS = 1000;
const EPS = Number.EPSILON;

function requireDof(dof: number): void {
  if (!(dof > 0)) throw new RangeError(`degrees of freedom are above 0, not ${dof}`);
}

/** P(0 < T < t) is concave: from (p − ½)/f(0), left of the root, Newton's method rises to it without overshoot. */
function centralRoot(central: number, dof: number): number {
  let t = central / density(0, dof);
  for (let i = 0; i < MAX_STEPS; i++) {
    const step = (central - centralProbability(t, dof)) / density(t, dof);
    t += step;
    if (Math.abs(step) < 1e-9 * t) return t; // quadratic: the next step would be below 1e-17
  }
  throw new RangeError(`no t quantile found at ${dof} degrees of freedom`);
}

/** ln P(T > t) is concave and falling in ln t, straight for heavy tails: Newton's method in ln t. */
function tailRoot(logProbability: number, dof: number): number {
  let t = (0.5 - exp(logProbability)) / density(0, dof);
  for (let i = 0; i < MAX_STEPS; i++) {
    const logQ = logTail(t, dof);
    const slope = t * exp(logDensity(t, dof) - logQ);
    const step = Math.min((logQ - logProbability) / slope, Math.LN2 * 2); // at most fourfold: the normal tail falls fast
    t *= exp(step);
    if (Math.abs(step) < 1e-9) return t;
  }
  throw new RangeError(`no t quantile found at ${dof} degrees of freedom`);
}

/** P(0 < T < t) = t f(t) Σ Π y (ν+1+2j)/(3+2j), y = t²/(ν+t²): the incomplete beta series (DLMF 8.17.8), all terms positive. */
function centralProbability(t: number, dof: number): number {
  const t2 = (t * t) / (1 + (t * t) / dof);
  let term = 1;
  let sum = 1;
  for (let j = 0; term > EPS * sum * 0.1 && j < MAX_STEPS; j++) {
    term *= (t2 * (1 + (1 + 2 * j) / dof)) / (3 + 2 * j);
    sum += term;
  }
  return t * density(t, dof) * sum;
}

/** ln P(T > t), t > 0: ln[½ t f(t) K], K the even part of the continued fraction of I_x(ν/2, ½) at x = ν/(ν+t²) (DLMF 8.17.22). */
function logTail(t: number, dof: number): number {
  if (t * t < SERIES_BELOW) return log(0.5 - centralProbability(t, dof));
  const x = 1 / (1 + (t * t) / dof);
  const lead = 0.5 * (t * t - 1) * x;
  // Modified Lentz: fraction = b₀ + a₁/(b₁ + a₂/(b₂ + …)).
  let fraction = (lead + 1) / (1 + 2 / dof);
  let c = fraction;
  let d = 0;
  for (let n = 1; n < MAX_STEPS; n++) {
    const before = 1 + (4 * n - 2) / dof;
    const after = 1 + (4 * n + 2) / dof;
    const cross = (n * (0.5 - n) * x) / before;
    const a = (((1 + (2 * n - 2) / dof) * (1 + (2 * n - 1) / dof)) / before) * cross * x;
    const b = n + (2 * cross) / dof + ((1 + (2 * n) / dof) * (lead + 1 + n * (2 - x))) / after;
    d = 1 / (b + a * d);
    c = b + a / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < EPS) break;
  }
  return log((0.5 * t) / fraction) + logDensity(t, dof);
}

function density(t: number, dof: number): number {
  return exp(logDensity(t, dof));
}

/** ln f(t), f(t) = Γ((ν+1)/2) / (√(νπ) Γ(ν/2)) · (1 + t²/ν)^(−(ν+1)/2); ν = ∞: φ(t). */
function logDensity(t: number, dof: number): number {
  const exponent = dof === Infinity ? (t * t) / 2 : ((dof + 1) / 2) * log1p((t * t) / dof);
  return logHalfStepGammaRatio(dof / 2) - 0.5 * log(2 * Math.PI) - exponent;
}
