import type { Basis } from "../../db/entries.ts";
import { StoreError } from "../../db/store-error.ts";
import { parseId } from "../public-id.ts";

/** One band of one trial's revision as one method version has it. */
export interface TrialPin {
  readonly kind: "trial";
  readonly trial: string;
  readonly revision: number;
  readonly methodVersion: string;
  /** A standard band, or a channel by its counter and its own name. */
  readonly band: string;
}

/** The pooled row of an entry that an event made. */
export interface EntryPin {
  readonly kind: "entry";
  readonly entry: string;
  readonly basis: Basis;
  readonly seq: number;
}

/** What names a result for good: its numbers never change. */
export type Pin = TrialPin | EntryPin;

export const BASES = ["all", "independent", "paired", "independent_paired"] as const satisfies readonly Basis[];

/** `/pinned/trl-…/1/1.0.0/0.1-1.0` or `/pinned/ent-…/all/64`: the page; with `/v1` before it the JSON. */
export function pinPath(pin: Pin): string {
  const parts =
    pin.kind === "trial"
      ? [pin.trial, pin.revision, pin.methodVersion, encodeURIComponent(pin.band)]
      : [pin.entry, pin.basis, pin.seq];
  return `/pinned/${parts.join("/")}`;
}

/**
 * Reads the path of a page or of its JSON.
 * @throws StoreError "not-found" where it names no pinned result, "mistyped-id" where an id's check character fails
 */
export function parsePin(path: string): Pin {
  const [id = "", ...rest] = /^(?:\/v1)?\/pinned\/(.+)$/.exec(path)?.[1]?.split("/") ?? [];
  const pin = id.toLowerCase().startsWith("ent") ? entryPin(id, rest) : trialPin(id, rest);
  if (pin === null) throw new StoreError("not-found", `${JSON.stringify(path.slice(0, 200))} is no pinned result.`);
  return pin;
}

function trialPin(id: string, [revision = "", methodVersion = "", band = "", ...more]: string[]): TrialPin | null {
  const trial = parseId("trial", decode(id));
  const known = COUNT.test(revision) && VERSION.test(methodVersion) && band !== "" && more.length === 0;
  return known ? { kind: "trial", trial, revision: Number(revision), methodVersion, band: decode(band) } : null;
}

function entryPin(id: string, [basis = "", seq = "", ...more]: string[]): EntryPin | null {
  const entry = parseId("entry", decode(id));
  const known = BASES.find((one) => one === basis);
  return known && COUNT.test(seq) && more.length === 0
    ? { kind: "entry", entry, basis: known, seq: Number(seq) }
    : null;
}

/** Written in one way only, so that one result has one address. */
const COUNT = /^[1-9]\d{0,14}$/;
const VERSION = /^\d{1,6}\.\d{1,6}\.\d{1,6}$/;

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part; // a stray % is no part of any name that is stored
  }
}
