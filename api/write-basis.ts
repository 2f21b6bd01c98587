import { parseUnit } from "../analysis/units.ts";
import type { BasisFigures } from "../db/entry-figures.ts";
import type { BasisOut } from "./wire/entry.ts";
import type { RankedEntry } from "./wire/leaderboard.ts";
import {
  cadrPerCost,
  cadrPerWatt,
  noiseFor300,
  writeCadr,
  writePooledNoise,
  writePower,
} from "./write-ranked-entry.ts";

/** What an entry's trials come to on one basis; the cost is that of the whole thing. */
export function writeBasis({ pooled, spread }: BasisFigures, cost: RankedEntry["cost"], unitCode: string): BasisOut {
  const unit = parseUnit(unitCode, "flow");
  const { predictionLow, predictionHigh, leftOutChangeM3PerH } = pooled;
  return {
    cadr: writeCadr(pooled, unitCode),
    prediction:
      predictionLow === null || predictionHigh === null
        ? null
        : { low: unit.fromBase(predictionLow), high: unit.fromBase(predictionHigh), unit: unit.code },
    tau: pooled.tau,
    i2: pooled.i2,
    q: pooled.q,
    spread: { relative: spread.relative, dof: spread.dof, source: spread.source },
    left_out_change:
      leftOutChangeM3PerH === null ? null : { value: unit.fromBase(leftOutChangeM3PerH), unit: unit.code },
    trials: pooled.trials,
    rooms: pooled.rooms,
    submitters: pooled.submitters,
    unpaired: pooled.unpaired,
    serious: pooled.serious,
    interest: JSON.parse(pooled.interestJson) as Record<string, number>,
    aerosols: JSON.parse(pooled.aerosolsJson) as Record<string, number>,
    noise: writePooledNoise(pooled),
    noise_trials: pooled.noiseTrials,
    power: writePower(pooled),
    power_trials: pooled.powerTrials,
    cadr_per_watt: cadrPerWatt(pooled, unitCode),
    cadr_per_cost: cadrPerCost(pooled, cost, unitCode),
    noise_for_300: noiseFor300(pooled),
    members_sha256: pooled.membersHash,
    method_version: pooled.methodVersion,
    as_of_seq: pooled.seq,
  };
}
