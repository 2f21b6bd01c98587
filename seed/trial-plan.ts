import type { AerosolKey } from "./aerosols.ts";
import type { CounterKey } from "./counters.ts";
import type { LogForm } from "./log-form.ts";
import type { RoomKey } from "./rooms.ts";

/** One invented occasion, before it is simulated. */
export interface TrialPlan {
  readonly key: string;
  /** Seed of its readings: the same plan posts the same bytes. */
  readonly seed: number;
  readonly room: RoomKey;
  readonly cleaner: string;
  readonly setting: string;
  /** RFC 3339: when its first log began. */
  readonly at: string;
  readonly aerosol: AerosolKey;
  readonly counters: readonly CounterKey[];
  /**
   * paired: background, natural and total run · log: everything in one, phases unmarked · marked_log: with marks ·
   * total_only: background and total, no natural loss · naturalOf: background and total, and another trial's natural run.
   */
  readonly layout: "paired" | "log" | "marked_log" | "total_only" | { readonly naturalOf: string };
  readonly form: LogForm;
  readonly mixingFan: "on" | "off";
  /** Where it stood otherwise in the natural run. */
  readonly mixingFanInNatural?: "on" | "off";
  readonly ventilation: "off" | "natural" | "mechanical";
  readonly interest: "independent" | "lent_or_given" | "paid" | "maker_or_seller";
  /** What else is stated, as the API takes it: noise, power, specimen, filter_state, trials_made, note. */
  readonly also?: Readonly<Record<string, unknown>>;
}
