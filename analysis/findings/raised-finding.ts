import type { Finding } from "../analysis.ts";
import type { Evidence } from "./evidence.ts";

export interface RaisedFinding {
  readonly finding: Finding;
  /** What it adds to u(k_total − k_natural) in 1/h, with its dof; 0 where it only informs. */
  readonly uPerH: number;
  readonly dof: number;
}

/** A finding's own size is known to about a quarter: GUM G.4.2 gives ν = 8. */
const DOF = 8;

/** A finding, with the value that raised it, and what it adds to u(k_total − k_natural) in 1/h where it adds anything. */
export function raised(
  { trial }: Evidence,
  code: Finding["code"],
  severity: Finding["severity"],
  value: number | null,
  message: string,
  uPerH = 0,
): RaisedFinding {
  const effectM3PerH = uPerH > 0 ? trial.room.volumeM3.value * uPerH : null;
  return { finding: { code, severity, message, value, effectM3PerH }, uPerH, dof: DOF };
}
