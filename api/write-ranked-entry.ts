import { coverageFactor95, interval95 } from "../analysis/estimate.ts";
import { levelOfUnitsDb } from "../analysis/sound-level.ts";
import { parseUnit } from "../analysis/units.ts";
import type { Pooled } from "../db/entries.ts";
import type { StandingRow } from "../db/leaderboard-rows.ts";
import { unitsFor300 } from "./leaderboard-order.ts";
import type { Standing } from "./leaderboard-ranks.ts";
import type { RankedEntry } from "./wire/leaderboard.ts";
import { type QuantityOut, quantityOut } from "./wire/quantity.ts";
import type { SoundOut } from "./wire/sound.ts";

/** One entry of the list as readers see it. */
export function writeRankedEntry(row: StandingRow, standing: Standing, unit: string): RankedEntry {
  const { pooled } = row;
  const cost = wholeCost(row.configurationJson);
  return {
    id: pooled.entry,
    rank: standing.rank,
    rank_shared: standing.rankShared,
    rank_low: standing.rankLow,
    rank_high: standing.rankHigh,
    configuration: { id: row.configuration, title: row.title, kind: row.kind },
    setting: row.setting,
    cadr: writeCadr(pooled, unit)!,
    noise: writePooledNoise(pooled),
    power: writePower(pooled),
    cost,
    cadr_per_watt: cadrPerWatt(pooled, unit),
    cadr_per_cost: cadrPerCost(pooled, cost, unit),
    noise_for_300: noiseFor300(pooled),
    trials: pooled.trials,
    rooms: pooled.rooms,
    submitters: pooled.submitters,
    interest: JSON.parse(pooled.interestJson) as Record<string, number>,
    unpaired: pooled.unpaired,
    serious: pooled.serious,
    aerosols: JSON.parse(pooled.aerosolsJson) as Record<string, number>,
    frontier: standing.frontier,
    invented: row.invented,
  };
}

/** The pooled CADR with the interval stored beside it, null where no trial counts any more. */
export function writeCadr(pooled: Pooled, unitCode: string): QuantityOut | null {
  const { cadrM3PerH, u, dof, low, high } = pooled;
  if (cadrM3PerH === null || u === null || low === null || high === null) return null;
  const unit = parseUnit(unitCode, "flow");
  const [value, ...ends] = [cadrM3PerH, low, high].map(unit.fromBase) as [number, number, number];
  return { value, unit: unit.code, u: u / unit.scale, dof, low: ends[0], high: ends[1] };
}

/** L_pA at 1 m as its trials read it: a level, or the bound it stays under. */
export function writePooledNoise({ noiseDb, noiseU, noiseDof }: Pooled): SoundOut | null {
  if (noiseDb === null) return null;
  const unit = { unit: "dB", weighting: "A" } as const;
  if (noiseU === null) return { value: null, ...unit, high: noiseDb, bound: "upper" };
  const level = { value: noiseDb, u: noiseU, dof: noiseDof ?? Infinity };
  return { value: noiseDb, ...unit, u: noiseU, dof: noiseDof, ...interval95(level) };
}

export function writePower({ powerW, powerU, powerDof }: Pooled): QuantityOut | null {
  if (powerW === null || powerU === null) return null;
  return quantityOut({ value: powerW, u: powerU, dof: powerDof ?? Infinity }, "W");
}

/**
 * CADR per watt: u_rel² = u_rel(CADR)² + u_rel(P)², both independent (JCGM 100:2008 eq. 12), at the fewer dof of the two.
 * Null without a power above 0.
 */
export function cadrPerWatt(pooled: Pooled, unitCode: string): QuantityOut | null {
  const cadr = writeCadr(pooled, unitCode);
  const { powerW, powerU, powerDof } = pooled;
  if (!cadr || powerW === null || powerU === null || !(powerW > 0)) return null;
  const value = cadr.value / powerW;
  const u = Math.hypot(cadr.u / powerW, (value * powerU) / powerW);
  const dof = Math.min(cadr.dof ?? Infinity, powerDof ?? Infinity);
  const half = coverageFactor95(dof) * u;
  const unit = `${cadr.unit}/W`;
  return { value, unit, u, dof: dof === Infinity ? null : dof, low: value - half, high: value + half };
}

/** CADR per unit of money; a price is taken as known, so that its interval is that of CADR. */
export function cadrPerCost(pooled: Pooled, cost: RankedEntry["cost"], unitCode: string): RankedEntry["cadr_per_cost"] {
  const cadr = writeCadr(pooled, unitCode);
  if (!cadr || cost === null || !(cost.value > 0)) return null;
  const { unit, dof } = cadr;
  const [value, u, low, high] = [cadr.value, cadr.u, cadr.low, cadr.high].map((x) => x / cost.value) as Four;
  return { value, unit: `${unit}/${cost.currency}`, u, dof, low, high };
}

type Four = [number, number, number, number];

/** L_pA at 1 m + 10·lg n of the n units that bring 300 m³/h; n is taken as known, so that the interval is that of L_pA. */
export function noiseFor300(pooled: Pooled): RankedEntry["noise_for_300"] {
  const noise = writePooledNoise(pooled);
  const units = unitsFor300(pooled.cadrM3PerH ?? 0);
  if (!noise || !Number.isFinite(units)) return null;
  const together = (levelDb: number) => levelOfUnitsDb(levelDb, units);
  const high = together(noise.high);
  if (noise.value === null) return { units, value: null, low: null, high, unit: "dB" };
  return { units, value: together(noise.value), low: together(noise.low), high, unit: "dB" };
}

/** What the whole thing costs, as its words tell it. */
export function wholeCost(configurationJson: string): RankedEntry["cost"] {
  return costOf(configurationJson, "whole");
}

type Item = "whole" | "filter_set" | "electricity_year";

export function costOf(configurationJson: string, item: Item): RankedEntry["cost"] {
  const { costs } = JSON.parse(configurationJson) as {
    costs?: { item: string; money: NonNullable<RankedEntry["cost"]> }[];
  };
  return costs?.find((cost) => cost.item === item)?.money ?? null;
}
