import type { Channel } from "../trial.ts";
import type { DayMonthOrder } from "./time-text.ts";

/** What the submitter says about a file's columns. What is left out is guessed from names and contents. */
export interface ColumnsStated {
  readonly t?: TimeStated | undefined;
  /** Only these columns become channels; all that look like one where left out. */
  readonly channels?: readonly ChannelStated[] | undefined;
}

export interface TimeStated {
  readonly column: string;
  /** ms, s, min, h, d or datetime. */
  readonly unit?: string | undefined;
  readonly dayMonthOrder?: DayMonthOrder | undefined;
}

export interface ChannelStated {
  readonly column: string;
  /** The column's name where left out. */
  readonly id?: string | undefined;
  readonly quantity?: Channel["quantity"] | undefined;
  /** A unit of the quantity; any text for raw. */
  readonly unit?: string | undefined;
  readonly fromUm?: number | null | undefined;
  readonly toUm?: number | null | undefined;
  readonly cumulative?: Channel["cumulative"] | undefined;
  /** In the unit of the column. */
  readonly ceiling?: number | null | undefined;
}
