import type { Estimate } from "./estimate.ts";

/**
 * What an analysis starts from: one occasion, one room, one or more counters, several runs.
 * Times are seconds after the first row sent of the run they belong to; concentrations are in the channel's unit.
 */
export interface Trial {
  readonly room: Room;
  readonly counters: readonly Counter[];
  readonly runs: readonly Run[];
  /** Air flow of the cleaner in m³/h as its maker states it; null or left out where unknown. */
  readonly statedFlowM3PerH?: number | null;
  /** What draws begin from, made of the content alone; where it is left out no interval is checked by draws. */
  readonly seed?: string;
}

export interface Room {
  /** Air volume in m³ with its standard uncertainty. */
  readonly volumeM3: Estimate;
  readonly ventilation: Ventilation;
  readonly mixingFan: FanState;
}

export type Ventilation = "off" | "natural" | "mechanical" | "unknown";
export type FanState = "off" | "on" | "unknown";
export type Principle = "optical_counter" | "photometer" | "condensation_counter" | "other";

export interface Counter {
  readonly id: string;
  readonly principle: Principle;
  readonly model: string | null;
  /** Sample flow in cm³/s and dead time in s, where both are stated. */
  readonly sampleFlowCm3PerS: number | null;
  readonly deadTimeS: number | null;
  /** Stated maximum concentration in 1/cm³. */
  readonly maxConcentrationPerCm3: number | null;
  readonly smoothing: { readonly kind: "lag" | "moving_mean"; readonly timeS: number } | null;
}

export type Role = "background" | "natural" | "total" | "full_log";
export type Phase = "background" | "natural" | "total";
export type MarkEvent = "aerosol_end" | "cleaner_on" | "cleaner_off" | "setting_changed";

export interface Run {
  /** Number of the run in the trial, from 0. */
  readonly index: number;
  readonly role: Role;
  /** Id of the counter that logged it. */
  readonly counter: string;
  readonly series: Series;
  /** Unix time in ms of the first row sent, where known. */
  readonly startMs: number | null;
  readonly mixingFan: FanState;
  readonly ventilation: Ventilation;
  readonly marks: readonly { readonly event: MarkEvent; readonly tS: number }[];
  /** Windows fixed by the submitter; n numbers several total phases of one log. */
  readonly windows: readonly {
    readonly phase: Phase;
    readonly n: number;
    readonly fromS: number;
    readonly toS: number;
  }[];
}

export interface Series {
  /** Seconds after the first row sent, one a row, NaN where the row's time could not be read. */
  readonly tS: Float64Array;
  readonly channels: readonly Channel[];
  /** Rows outside [cropFromS, cropToS] are not used. */
  readonly cropFromS: number | null;
  readonly cropToS: number | null;
}

export interface Channel {
  readonly id: string;
  readonly quantity: "number" | "mass" | "raw";
  /** UCUM code: 1/cm3 for number, ug/m3 for mass (already converted), anything for raw. */
  readonly unit: string;
  readonly fromUm: number | null;
  readonly toUm: number | null;
  readonly cumulative: "none" | "above" | "below";
  readonly ceiling: number | null;
  /** One a row, NaN where missing. */
  readonly values: Float64Array;
}
