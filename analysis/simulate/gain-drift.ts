/** A counter that warms up: its reading is (1 + excess) times too high at the log's first row and settles with the time constant. */
export interface GainDrift {
  readonly excess: number;
  readonly settleS: number;
}

/** Gain 1 + a·e^(−t/τ), t in s after the log's first row. */
export function gainAt({ excess, settleS }: GainDrift, tS: number): number {
  return 1 + excess * Math.exp(-tS / settleS);
}
