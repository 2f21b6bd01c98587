import type { Handle } from "./rooms.ts";

/** An invented configuration: what is sent of it, and what it truly does. */
export interface DemoCleaner {
  /** What plans call it by. */
  readonly key: string;
  readonly describedBy: Handle;
  /** Key of the cleaner it derives from. */
  readonly derivedFrom?: string;
  /** The configuration as the API takes it, without settings. */
  readonly words: Readonly<Record<string, unknown>>;
  /** Settings as the API takes them, beside the clean air delivery rate that the simulation gives them for 0.3–1.0 µm. */
  readonly settings: readonly {
    readonly trueCadrM3PerH: number;
    readonly words: { readonly label: string } & Readonly<Record<string, unknown>>;
  }[];
  /** How much more of the air it clears of particles of 2 µm and over: a coarse filter stops them better. */
  readonly coarseGain: number;
}

export function euros(value: number, date: string) {
  return { value, currency: "EUR", date };
}

export function m3PerH(value: number) {
  return { value, unit: "m3/h" };
}

export function watts(value: number) {
  return { value, unit: "W" };
}
