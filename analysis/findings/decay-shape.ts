import type { BandDecay } from "../counter-decays.ts";
import { highestClimb } from "../decay-climb.ts";
import { decayCurvature } from "../decay-curvature.ts";
import { ASSUMED_MEMORY_H } from "../decay-noise-fit.ts";
import { leftoverCorrelation } from "../decay-scatter.ts";
import { decidingOf, type Evidence, shapeOf, spreadOfDifference } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/**
 * Errors that last longer than this share of a window, and clearly longer than is assumed anyway, are seen too few times
 * to be known: simulated decays of 1800 s so flagged held the truth 88 % of the time. In a short window the share alone
 * says nothing: in decays of 150 s errors that last a quarter or a half of them were covered 99 % of the time.
 */
const MOST_MEMORY = 0.1;
/** Sound trials in which chance bends a decay so far, all decays of one together. */
const CURVATURE_LEVEL = 0.06;
/** Two SD above what is expected of a counter before it is seen: 0.02·e². */
const MOST_SCATTER = 0.15;
const CORRELATION_LEVEL = 0.02;
/** Less of a long-run variance makes u less than a fifth too small, and many counters leave as much. */
const MOST_LONG_RUN = 1.5;
/** A climb of noise alone over a window of fifty of its memories is five SD (simulated). */
const CLIMB_SD = 6;

/** Whether the decays are exponentials with errors that average out. */
export function decayShapeFindings(evidence: Evidence): RaisedFinding[] {
  const deciding = decidingOf(evidence);
  return [
    ...memoryFinding(evidence, deciding),
    ...curvatureFinding(evidence, deciding),
    ...misfitFinding(evidence, deciding),
    ...climbFinding(evidence, deciding),
  ];
}

/** The value is the memory as a share of its window. */
function memoryFinding(evidence: Evidence, deciding: readonly BandDecay[]): RaisedFinding[] {
  const shares = deciding.map(({ fit: { noise, windowH } }) =>
    noise.sigma > noise.white && noise.tauH > 2 * ASSUMED_MEMORY_H ? noise.tauH / windowH : 0,
  );
  const longest = Math.max(0, ...shares);
  if (!(longest > MOST_MEMORY)) return [];
  const message =
    "The readings swing about the fitted curve in waves longer than a tenth of the decay, so the interval may be too narrow. A fan that mixes the room, a steadier counter or a longer log helps.";
  return [raised(evidence, "long-memory", "serious", longest, message)];
}

/**
 * A drift of k adds |k₁−k₂|/√12: of a k that goes evenly from one to the other, any in between may be meant. The value is
 * |k₁−k₂|/k, the largest.
 */
function curvatureFinding(evidence: Evidence, deciding: readonly BandDecay[]): RaisedFinding[] {
  const apart = new Map<BandDecay, number>();
  for (const decay of deciding) {
    const { windowH, kPerH } = decay.fit;
    const curvature = decayCurvature(shapeOf(decay), windowH, kPerH.dof);
    if (curvature && curvature.p < CURVATURE_LEVEL / deciding.length) {
      apart.set(decay, Math.abs(curvature.halvesApartPerH));
    }
  }
  if (apart.size === 0) return [];
  const uPerH = spreadOfDifference(evidence, (decay) => (apart.get(decay) ?? 0) / Math.sqrt(12));
  const share = Math.max(...[...apart].map(([{ fit }, perH]) => perH / Math.max(Math.abs(fit.kPerH.value), 1e-9)));
  const message =
    "A decay falls at another rate in its first half than in its second, and the interval is widened for it. Mix the room, keep the setting, and stop before other sources of dust show.";
  return [raised(evidence, "uneven-decay", "warning", share, message, uPerH)];
}

/** Relative SD that counting gives the fullest reading, √(κ/(A + B)): how much of less is the counter's own scatter cannot be told. */
function leastCounting({ fit: { noise, amplitude, background } }: BandDecay): number {
  return Math.sqrt(noise.countingQ / (amplitude + background.value));
}

/**
 * Scatter far beyond the noise expected of any counter, which the fit's own u holds already, or residuals that hang together
 * after the noise's memory is taken out: their long-run variance λ² makes u too small by λ, and u√(λ²−1) is added. The value is
 * the relative SD of a reading.
 */
function misfitFinding(evidence: Evidence, deciding: readonly BandDecay[]): RaisedFinding[] {
  const level = CORRELATION_LEVEL / Math.max(1, deciding.length);
  const scatterOf = ({ fit: { noise } }: BandDecay) => Math.hypot(noise.sigma, noise.white);
  const missing = new Map(
    deciding.flatMap((decay): [BandDecay, number][] => {
      const left = leftoverCorrelation(shapeOf(decay));
      const together = left !== null && left.p < level && left.longRun > MOST_LONG_RUN;
      if (!together && !(scatterOf(decay) > Math.max(MOST_SCATTER, leastCounting(decay)))) return [];
      return [[decay, together ? decay.fit.kPerH.u * Math.sqrt(left.longRun - 1) : 0]];
    }),
  );
  if (missing.size === 0) return [];
  const message =
    "The readings of a decay do not scatter about an exponential as a counter's do: too far, or one leaning on the other for long. Look for what came and went in the room (doors, heating, people, a fan that cycles) and repeat the decay without it.";
  const scatter = Math.max(...[...missing.keys()].map(scatterOf));
  const uPerH = spreadOfDifference(evidence, (decay) => missing.get(decay) ?? 0);
  return [raised(evidence, "lack-of-fit", "warning", scatter, message, uPerH)];
}

/** The value is the climb as a share of the level it starts from. A decay that grows as a whole is told elsewhere. */
function climbFinding(evidence: Evidence, deciding: readonly BandDecay[]): RaisedFinding[] {
  const climbs = deciding.filter(({ fit }) => fit.kPerH.value > 0).map((decay) => highestClimb(shapeOf(decay)));
  const highest = climbs.reduce((a, b) => (b.sd > a.sd ? b : a), { share: 0, sd: 0 });
  if (!(highest.sd > CLIMB_SD)) return [];
  const message =
    "Within a decay the concentration climbs again: something brought in particles, or the air was not mixed. Keep the room closed and empty, and let a fan mix it.";
  return [raised(evidence, "non-monotone", "warning", highest.share, message)];
}
