import type { Channel } from "../trial.ts";
import type { DeadTime } from "./dead-time-loss.ts";
import type { FractalNoise } from "./fractal-noise.ts";
import type { GainDrift } from "./gain-drift.ts";

/** A test that is simulated: what is true of room, cleaner and aerosol, and the counter that looks at it. */
export interface Scenario {
  /** 32-bit integer; the same scenario and seed give the same log to the last bit. */
  readonly seed: number;
  readonly room: { readonly volumeM3: number; readonly kNaturalPerH: BySize };
  readonly cleaner: { readonly cadrM3PerH: BySize };
  readonly aerosol: {
    /** What is added to the clean air by the end of the feed, all sizes. */
    readonly startPerCm3: number;
    /** What the clean air holds with the cleaner off, of the same sizes. */
    readonly backgroundPerCm3: number;
    readonly densityGPerCm3: number;
    readonly sizes: readonly SizeBin[];
  };
  readonly counter: CounterModel;
  readonly schedule: Schedule;
}

/** One value for all sizes, or values at sizes: linear in ln(size) between them, constant outside. */
export type BySize = number | readonly { readonly sizeUm: number; readonly value: number }[];

/** Particles of one size class; all of them behave as those of the geometric mean size. */
export interface SizeBin {
  readonly fromUm: number;
  readonly toUm: number;
  /** Share of the number concentration; shares are taken relative to their sum. */
  readonly share: number;
}

export interface CounterModel {
  readonly intervalS: number;
  readonly channels: readonly Omit<Channel, "values" | "ceiling">[];
  /** Relative errors of a reading: a white part and one with a memory (Ornstein–Uhlenbeck), independent between channels. */
  readonly noise: { readonly white: number; readonly ouSd: number; readonly ouTauS: number };
  /** Smallest step of a reading, in the channel's unit; null for none. */
  readonly step: number | null;
  readonly ceiling: number | null;
  readonly smoothing: { readonly kind: "lag" | "moving_mean"; readonly timeS: number } | null;
  /** Air looked at for one reading; its particles are counted, so readings scatter by Poisson. Null: no counting noise. */
  readonly sampleVolumeCm3: number | null;
  /** Faults of a counter; left out: it has none. */
  readonly deadTime?: DeadTime;
  readonly gainDrift?: GainDrift;
  readonly fractalNoise?: FractalNoise;
}

/** Lengths of the phases of a log in s, in this order; 0 leaves one out. Without a feed the log begins at its peak. */
export interface Schedule {
  readonly cleanAirS: number;
  readonly feedS: number;
  readonly naturalS: number;
  readonly totalS: number;
}

export function valueAt(bySize: BySize, sizeUm: number): number {
  if (typeof bySize === "number") return bySize;
  const points = bySize.toSorted((a, b) => a.sizeUm - b.sizeUm);
  const above = points.findIndex((point) => point.sizeUm >= sizeUm);
  if (above === 0) return points[0]!.value;
  if (above < 0) return points.at(-1)!.value;
  const [low, high] = [points[above - 1]!, points[above]!];
  const share = Math.log(sizeUm / low.sizeUm) / Math.log(high.sizeUm / low.sizeUm);
  return low.value + share * (high.value - low.value);
}

export function meanSizeUm(bin: SizeBin): number {
  return Math.sqrt(bin.fromUm * bin.toUm);
}
