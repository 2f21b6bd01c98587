import type { Band } from "./analysis.ts";
import { ceilingMask } from "./ceiling.ts";
import type { RawColumn } from "./clean-channel.ts";
import { counterStep } from "./counter-step.ts";
import { correctDeadTime } from "./dead-time.ts";
import { log } from "./log.ts";
import type { Channel, Counter } from "./trial.ts";

/** The size bands of ANSI/AHAM AC-1 for its smoke, dust and pollen, in µm (from memory, and as the method states them). */
export const STANDARD_BANDS = [
  { name: "0.1-1.0", fromUm: 0.1, toUm: 1.0 },
  { name: "0.5-3.0", fromUm: 0.5, toUm: 3.0 },
  { name: "5-11", fromUm: 5, toUm: 11 },
] as const;

/** A band is analysed when the bins cover at least this share of it on the log-size axis. */
export const LEAST_COVERAGE = 0.5;

export interface BandColumn {
  readonly band: Band;
  readonly column: RawColumn;
}

interface Bin {
  readonly fromUm: number;
  readonly toUm: number;
  readonly values: Float64Array;
  readonly clipped: Uint8Array;
}

/**
 * What one run can be analysed by: the standard bands its bins cover (each the sum of its bins, weighted by the share
 * of the bin inside the band on the log-size axis), the mass channel up to 2.5 µm, then each channel as it is.
 * `uncovered` names the bands that bins touch but do not cover.
 */
export function bandColumns(
  counter: Counter,
  channels: readonly Channel[],
  rows: readonly number[],
  tS: Float64Array,
): { columns: BandColumn[]; uncovered: { name: string; coverage: number }[] } {
  const lifts = deadTimeLifts(counter, channels, rows);
  const picked = channels.map((channel) => pickRows(channel, rows, lifts));
  const columns: BandColumn[] = [];
  const uncovered: { name: string; coverage: number }[] = [];

  const bins = sizeBins(picked);
  const quantity = picked.some((c) => c.quantity === "raw") ? "raw" : "number";
  for (const { name, fromUm, toUm } of STANDARD_BANDS) {
    const shares = bins.map((bin) => logOverlap(bin, fromUm, toUm) / log(bin.toUm / bin.fromUm));
    const covered = bins.reduce((sum, bin) => sum + logOverlap(bin, fromUm, toUm), 0);
    const coverage = Math.min(1, covered / log(toUm / fromUm));
    if (coverage >= LEAST_COVERAGE - 1e-9) {
      const band: Band = { kind: "standard", name, fromUm, toUm, coverage };
      columns.push({ band, column: { tS, quantity, ...weightedSum(bins, shares, rows.length) } });
    } else if (coverage > 0) uncovered.push({ name, coverage });
  }

  const massChannel = picked.find((c) => c.quantity === "mass" && c.toUm === 2.5);
  if (massChannel) {
    const { fromUm, toUm } = massChannel;
    const band: Band = { kind: "standard", name: "mass", fromUm, toUm, coverage: null };
    columns.push({ band, column: { tS, ...massChannel } });
  }
  for (const channel of picked) {
    const { fromUm, toUm } = channel;
    const band: Band = { kind: "channel", name: `${counter.id}/${channel.id}`, fromUm, toUm, coverage: null };
    columns.push({ band, column: { tS, ...channel } });
  }
  return { columns, uncovered };
}

/** The kept rows of a channel with its ceiling mask, a number channel lifted by what dead time took. */
function pickRows(channel: Channel, rows: readonly number[], lifts: Float64Array | null) {
  const sent = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) sent[i] = channel.values[rows[i]!] ?? Number.NaN;
  const clipped = ceilingMask({ values: sent, ceiling: channel.ceiling }, counterStep(sent));
  const values = lifts && channel.quantity === "number" ? sent.map((v, i) => v * lifts[i]!) : sent;
  return { ...channel, values, clipped };
}

/**
 * What dead time divided each row's counts by, where flow and dead time are stated. A particle of any size blinds the
 * counter to all others, so one factor holds for all channels, and it follows from all particles counted: the widest
 * cumulative channel or the sum of the others.
 */
function deadTimeLifts(
  { sampleFlowCm3PerS, deadTimeS }: Counter,
  channels: readonly Channel[],
  rows: readonly number[],
): Float64Array | null {
  if (sampleFlowCm3PerS === null || deadTimeS === null) return null;
  const counted = channels.filter(({ quantity }) => quantity === "number");
  return Float64Array.from(rows, (row) => {
    let [widest, sum] = [0, 0];
    for (const { cumulative, values } of counted) {
      const value = values[row]! || 0;
      if (cumulative === "none") sum += value;
      else widest = Math.max(widest, value);
    }
    const all = Math.max(widest, sum);
    return all > 0 ? correctDeadTime(all, sampleFlowCm3PerS, deadTimeS) / all : 1;
  });
}

/** Bins of number and raw channels; cumulative ones are differenced in order of size. Open-ended bins enter no band. */
function sizeBins(channels: readonly (Channel & { clipped: Uint8Array })[]): Bin[] {
  const counts = channels.filter((c) => c.quantity !== "mass");
  const bins: Bin[] = [];
  const push = (fromUm: number | null, toUm: number | null, values: Float64Array, clipped: Uint8Array) => {
    if (fromUm !== null && toUm !== null && fromUm > 0 && toUm > fromUm) bins.push({ fromUm, toUm, values, clipped });
  };
  for (const c of counts) if (c.cumulative === "none") push(c.fromUm, c.toUm, c.values, c.clipped);

  const above = counts
    .filter((c) => c.cumulative === "above" && c.fromUm !== null)
    .sort((a, b) => a.fromUm! - b.fromUm!);
  above.slice(1).forEach((larger, i) => {
    const smaller = above[i]!;
    push(smaller.fromUm, larger.fromUm, difference(smaller.values, larger.values), either(smaller, larger));
  });

  const below = counts.filter((c) => c.cumulative === "below" && c.toUm !== null).sort((a, b) => a.toUm! - b.toUm!);
  below.forEach((larger, i) => {
    const smaller = below[i - 1];
    if (smaller === undefined) push(larger.fromUm, larger.toUm, larger.values, larger.clipped);
    else push(smaller.toUm, larger.toUm, difference(larger.values, smaller.values), either(smaller, larger));
  });
  return bins;
}

/** Length of the part of the bin inside the band, on the natural-log size axis. */
function logOverlap(bin: Bin, fromUm: number, toUm: number): number {
  return Math.max(0, log(Math.min(bin.toUm, toUm) / Math.max(bin.fromUm, fromUm)));
}

function difference(more: Float64Array, less: Float64Array): Float64Array {
  const between = new Float64Array(more.length);
  for (let row = 0; row < more.length; row++) between[row] = more[row]! - less[row]!;
  return between;
}

function either(a: { clipped: Uint8Array }, b: { clipped: Uint8Array }): Uint8Array {
  const clipped = new Uint8Array(a.clipped.length);
  for (let row = 0; row < clipped.length; row++) clipped[row] = a.clipped[row]! | b.clipped[row]!;
  return clipped;
}

function weightedSum(bins: readonly Bin[], shares: readonly number[], length: number) {
  const values = new Float64Array(length);
  const clipped = new Uint8Array(length);
  bins.forEach((bin, b) => {
    const share = shares[b]!;
    if (share === 0) return;
    for (let row = 0; row < length; row++) {
      values[row]! += share * bin.values[row]!;
      clipped[row]! |= bin.clipped[row]!;
    }
  });
  return { values, clipped };
}
