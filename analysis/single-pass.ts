import type { Finding } from "./analysis.ts";
import { type Estimate, interval95 } from "./estimate.ts";

/**
 * Single-pass ratio ε = CADR/Q, Q the flow as its maker states it, taken as exact: the share of the particles that passing air loses.
 * It cannot be above 1. Null where no flow is stated.
 */
export function singlePass(cadrM3PerH: Estimate, flowM3PerH: number | null | undefined): Estimate | null {
  if (flowM3PerH === null || flowM3PerH === undefined || !(flowM3PerH > 0)) return null;
  const { value, u, dof } = cadrM3PerH;
  return { value: value / flowM3PerH, u: u / flowM3PerH, dof };
}

/** A ratio whose whole interval lies above 1: flow, volume or decays are not what they are taken for. The value is it. */
export function aboveFlowFinding(ratio: Estimate | null): Finding[] {
  if (ratio === null || !(interval95(ratio).low > 1)) return [];
  const message =
    "More air is said to be cleaned than the maker states the unit to move, which cannot be: the flow is stated too low or for another setting, the room is smaller than stated, or something else removed particles with the cleaner on. Check the flow and the volume.";
  const { value } = ratio;
  return [{ code: "cadr-above-flow", severity: "serious", message, value, effectM3PerH: null }];
}
