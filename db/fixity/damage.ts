/** Something stored that is not as it was written. */
export interface Damage {
  readonly table: string;
  /** What names the row, or what the whole table lacks. */
  readonly key: string;
  readonly what: string;
}
