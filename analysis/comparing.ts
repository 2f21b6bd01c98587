import { type Estimate, interval95 } from "./estimate.ts";
import { betweenVariance } from "./pooling/between-variance.ts";
import { type Interval, wholeDof } from "./pooling/part-relative.ts";
import type { PooledCadr } from "./pooling/pool-cadr.ts";
import type { RoomRate } from "./pooling/pool-room.ts";
import { invertPositiveDefinite } from "./positive-definite.ts";
import { tCdf } from "./student-t.ts";

/** CADR of a less that of b [m³/h], with its 95 % interval. */
export interface Difference extends Estimate, Interval {
  /** Probability that a is the stronger. */
  readonly pStronger: number;
  /** Rooms in which both were measured. */
  readonly pairedRooms: number;
}

/**
 * Pairs that count as showing no shared place, beside those there are. With 2 an interval holds the truth 94–97 % of the time
 * where no place is shared (two to ten laboratories), and more where one is; with none it would be too narrow by luck.
 */
const DOF_LENT = 2;

/** One entry's figure in one room, a block's row: what it weighs in its laboratory's figure, and all that its error is made of. */
interface InRoom {
  readonly entry: 0 | 1;
  readonly rate: RoomRate;
  readonly weight: number;
  readonly widening: number;
}

/**
 * Difference of two pooled clean air delivery rates by generalised least squares over all rooms of both. In a room where both
 * were measured the volume's error μₐ·μ_b·(u_V/V)² and that of a natural run used for both are shared and cancel; rooms of one
 * submitter share its place τ in the spread; the rest stands as it was pooled. Between the two entries that place is shared as
 * far as pairs have shown: ρ = (k−1)/(k−1+2)·(1 − τ̂_d²/(τₐ²+τ_b²)), τ̂_d the SD of the k submitters' relative differences
 * beyond their own u, so that one pair alone cancels no more than the volume. Aitken 1936; dof the fewer of the two.
 */
export function compare(a: PooledCadr, b: PooledCadr): Difference {
  const entries = [a, b] as const;
  const blocks = [...Map.groupBy(entries.flatMap(roomsOf), ({ rate }) => rate.submitter).values()];
  const rho = sharedPlace(entries, blocks);
  const information = [
    [0, 0],
    [0, 0],
  ];
  const weighted = [0, 0];
  for (const block of blocks) {
    const covariance = block.map((one) =>
      block.map((other) => {
        const place = entries[one.entry].tauM3PerH * entries[other.entry].tauM3PerH;
        const ofPlace = one.entry === other.entry ? place : rho * place;
        const widening = Math.sqrt(entries[one.entry].widening * entries[other.entry].widening);
        return widening * (ownCovariance(entries, one, other) + ofPlace);
      }),
    );
    const { inverse } = invertPositiveDefinite(covariance)!;
    block.forEach((one, i) => {
      block.forEach((other, j) => {
        information[one.entry]![other.entry]! += inverse[i]![j]!;
        weighted[one.entry]! += inverse[i]![j]! * cadrOf(other.rate);
      });
    });
  }
  const { inverse: c } = invertPositiveDefinite(information)!;
  const value = (c[0]![0]! - c[1]![0]!) * weighted[0]! + (c[0]![1]! - c[1]![1]!) * weighted[1]!;
  const u = Math.sqrt(c[0]![0]! + c[1]![1]! - 2 * c[0]![1]!);
  const difference = { value, u, dof: Math.min(a.dof, b.dof) };
  const pStronger = tCdf(value / u, wholeDof(difference.dof));
  return { ...difference, ...interval95(difference), pStronger, pairedRooms: pairedRooms(blocks) };
}

function roomsOf(pooled: PooledCadr, entry: number): InRoom[] {
  return pooled.laboratories.flatMap(({ rooms, weights, widening }) =>
    rooms.map((rate, i) => ({ entry: entry as 0 | 1, rate, weight: weights[i]!, widening })),
  );
}

function cadrOf({ volumeM3, kDifferencePerH }: RoomRate): number {
  return volumeM3.value * kDifferencePerH.value;
}

/** Covariance of two figures through trials, natural runs and volumes, before any spread between laboratories [m⁶/h²]. */
function ownCovariance(entries: readonly [PooledCadr, PooledCadr], one: InRoom, other: InRoom): number {
  if (one.rate.room !== other.rate.room) return 0;
  const { volumeM3: v, naturalUPerH } = one.rate;
  const volume = entries[one.entry].value * entries[other.entry].value * (v.u / v.value) ** 2;
  if (one === other) return one.widening ** 2 * ((v.value * one.rate.kDifferencePerH.u) ** 2 + volume);
  let natural = 0;
  for (const [run, u] of naturalUPerH) natural += u * (other.rate.naturalUPerH.get(run) ?? 0);
  return volume + v.value ** 2 * natural;
}

/** How far a submitter's place in the spread is the same for both entries, as a correlation. */
function sharedPlace(entries: readonly [PooledCadr, PooledCadr], blocks: readonly InRoom[][]): number {
  const [a, b] = entries;
  if (!(a.value > 0 && b.value > 0)) return 0;
  const pairs = blocks.filter(
    (block) => block.some(({ entry }) => entry === 0) && block.some(({ entry }) => entry === 1),
  );
  if (pairs.length < 2) return 0;
  const differences = pairs.map((block) => {
    const shares = block.map(({ entry, weight }) => (entry === 0 ? weight / a.value : -weight / b.value));
    const value = block.reduce((sum, { rate }, i) => sum + shares[i]! * cadrOf(rate), 0);
    let variance = 0;
    block.forEach((one, i) => {
      block.forEach((other, j) => {
        variance += shares[i]! * shares[j]! * ownCovariance(entries, one, other);
      });
    });
    return { value, variance };
  });
  const apart = (a.tauM3PerH / a.value) ** 2 + (b.tauM3PerH / b.value) ** 2;
  const seen = apart > 0 ? Math.max(0, 1 - betweenVariance(differences) / apart) : 0;
  return ((pairs.length - 1) / (pairs.length - 1 + DOF_LENT)) * seen;
}

function pairedRooms(blocks: readonly InRoom[][]): number {
  const rooms = (entry: 0 | 1) => new Set(blocks.flat().flatMap((one) => (one.entry === entry ? [one.rate.room] : [])));
  return rooms(0).intersection(rooms(1)).size;
}
