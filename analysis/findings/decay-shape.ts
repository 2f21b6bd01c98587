import type { BandDecay } from "../counter-decays.ts";
import { ASSUMED_MEMORY_H } from "../decay-noise-fit.ts";
import { decaysOf, type Evidence, naturalsOf, spreadOfDifference, totalsOf } from "./evidence.ts";
import { type RaisedFinding, raised } from "./raised-finding.ts";

/**
 * Errors that last longer than this share of a window, and clearly longer than is assumed anyway, are seen too few times
 * to be known: simulated decays of 1800 s so flagged held the truth 88 % of the time. In a short window the share alone
 * says nothing: in decays of 150 s errors that last a quarter or a half of them were covered 99 % of the time.
 */
const MOST_MEMORY = 0.1;

/** Whether the decays are exponentials with errors that average out. */
export function decayShapeFindings(evidence: Evidence): RaisedFinding[] {
  const { totalPerH, naturalPerH } = evidence;
  const found: RaisedFinding[] = [];
  // Errors of the one fit are no news where the other decides the interval.
  const deciding = [
    ...(totalPerH.u > naturalPerH.u / 3 ? totalsOf(evidence) : []),
    ...(naturalPerH.u > totalPerH.u / 3 ? naturalsOf(evidence) : []),
  ];
  const memory = memoryShare(deciding);
  if (memory > MOST_MEMORY) {
    const message =
      "The readings swing about the fitted curve in waves longer than a tenth of the decay, so the interval may be too narrow. A fan that mixes the room, a steadier counter or a longer log helps.";
    found.push(raised(evidence, "long-memory", "serious", memory, message));
  }
  const uneven = spreadOfDifference(evidence, (decay) => halvesApart(decay) / Math.sqrt(12));
  if (uneven > 0) {
    const message =
      "A decay falls at another rate in its first half than in its second, and the interval is widened for it. Mix the room, keep the setting, and stop before other sources of dust show.";
    const share = Math.max(
      ...decaysOf(evidence).map((decay) => halvesApart(decay) / Math.max(Math.abs(decay.fit.kPerH.value), 1e-9)),
    );
    found.push(raised(evidence, "uneven-decay", "warning", share, message, uneven));
  }
  return found;
}

/** Longest memory as a share of its window, 0 where it hides behind white noise or is no longer than assumed. */
function memoryShare(decays: readonly BandDecay[]): number {
  const shares = decays.map(({ fit: { noise, windowH } }) =>
    noise.sigma > noise.white && noise.tauH > 2 * ASSUMED_MEMORY_H ? noise.tauH / windowH : 0,
  );
  return Math.max(0, ...shares);
}

/** |k₁−k₂| of a decay whose halves are apart by more than 2u, else 0. */
function halvesApart({ fit: { halves } }: BandDecay): number {
  if (halves === null) return 0;
  const difference = Math.abs(halves.firstPerH - halves.secondPerH);
  return difference > 2 * halves.uDifference ? difference : 0;
}
