/** Flow through the counter and how long it is blind after each particle. */
export interface DeadTime {
  readonly flowCm3PerS: number;
  readonly deadTimeS: number;
}

/**
 * What a paralysable counter sees of the true concentrations of its size bins [1/cm³]: each is short by the factor e^(−x), x = N·Q·τ,
 * N all particles that reach it, of whatever size. Dead-time model of optical particle counters; analysis undoes it.
 */
export function loseToDeadTime(perCm3: readonly number[], { flowCm3PerS, deadTimeS }: DeadTime): number[] {
  const load = perCm3.reduce((sum, n) => sum + n, 0) * flowCm3PerS * deadTimeS;
  return perCm3.map((n) => n * Math.exp(-load));
}
