import type { Scenario } from "../analysis/simulate/scenario.ts";

export type AerosolKey = "salt" | "incense" | "wood_smoke" | "test_dust";

/** Aerosol enough to stand two hundred times over the clean air: what a careful tester aims at. */
const CLEAN_SHARE = 0.005;
const EDGES_UM = [0.3, 0.5, 1, 2.5, 5, 10] as const;

/** Invented aerosols: counts by size as an optical counter would see them, few enough not to coagulate. */
export const AEROSOLS: Readonly<Record<AerosolKey, Scenario["aerosol"]>> = {
  salt: aerosol(230, 2.17, [0.55, 0.33, 0.105, 0.013, 0.002]),
  incense: aerosol(420, 1.1, [0.72, 0.25, 0.028, 0.0018, 0.0002]),
  wood_smoke: aerosol(480, 1.2, [0.75, 0.22, 0.027, 0.0027, 0.0003]),
  test_dust: aerosol(130, 2.65, [0.4, 0.33, 0.2, 0.055, 0.015]),
};

function aerosol(startPerCm3: number, densityGPerCm3: number, shares: readonly number[]): Scenario["aerosol"] {
  const sizes = shares.map((share, i) => ({ fromUm: EDGES_UM[i]!, toUm: EDGES_UM[i + 1]!, share }));
  return { startPerCm3, backgroundPerCm3: CLEAN_SHARE * startPerCm3, densityGPerCm3, sizes };
}
