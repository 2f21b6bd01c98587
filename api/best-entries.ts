import type { Connection } from "../db/database.ts";
import { listStandingEntries, type StandingEntry } from "../db/standing-entries.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import { BAND_NAMES } from "./wire/series.ts";
import { writeCadr } from "./write-ranked-entry.ts";

type Band = (typeof BAND_NAMES)[number];

/** What is best known of a configuration. */
export interface BestEntry {
  readonly id: string;
  readonly setting: string;
  readonly band: string;
  readonly invented: boolean;
  readonly cadr: QuantityOut;
  readonly trials: number;
  readonly rooms: number;
  readonly submitters: number;
  readonly interest: Readonly<Record<string, number>>;
}

interface Asked {
  readonly unit: string;
  readonly band?: string;
  readonly invented?: boolean;
}

/**
 * The best known entry of each of these configurations that has one, by its id: real before invented, then that of most
 * trials, then the smallest particles, so that most of a list can be held against each other, then the narrowest interval
 * for its value.
 */
export async function listBestEntries(
  connection: Connection,
  configurations: readonly string[],
  { unit, band, invented }: Asked,
): Promise<ReadonlyMap<string, BestEntry>> {
  const standing = (await listStandingEntries(connection, configurations)).filter(
    (entry) =>
      entry.pooled.cadrM3PerH !== null &&
      (band === undefined || entry.band === band) &&
      (invented === undefined || entry.invented === invented),
  );
  const best = new Map<string, StandingEntry>();
  for (const entry of standing) {
    const known = best.get(entry.configuration);
    if (!known || isBetter(entry, known)) best.set(entry.configuration, entry);
  }
  return new Map([...best].map(([configuration, entry]) => [configuration, write(entry, unit)]));
}

function isBetter(a: StandingEntry, b: StandingEntry): boolean {
  if (a.invented !== b.invented) return b.invented;
  if (a.pooled.trials !== b.pooled.trials) return a.pooled.trials > b.pooled.trials;
  if (a.band !== b.band) return BAND_NAMES.indexOf(a.band as Band) < BAND_NAMES.indexOf(b.band as Band);
  return relativeU(a) < relativeU(b);
}

function relativeU({ pooled: { u, cadrM3PerH } }: StandingEntry): number {
  return u! / Math.abs(cadrM3PerH!);
}

function write({ id, setting, band, invented, pooled }: StandingEntry, unit: string): BestEntry {
  const { trials, rooms, submitters } = pooled;
  const interest = JSON.parse(pooled.interestJson) as Record<string, number>;
  return { id, setting, band, invented, cadr: writeCadr(pooled, unit)!, trials, rooms, submitters, interest };
}
