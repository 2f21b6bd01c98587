import { z } from "@hono/zod-openapi";
import type { StoredSetting } from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { type DescribedEntry, listCurrentPooled } from "../db/entries.ts";
import { againstStated } from "./against-stated.ts";
import { AgainstStated } from "./wire/against-stated.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";
import { Interest } from "./wire/leaderboard.ts";
import { QuantityOut } from "./wire/quantity.ts";
import { SoundOut } from "./wire/sound.ts";
import { writeCadr, writePooledNoise, writePower } from "./write-ranked-entry.ts";

/** An entry of a configuration: what its trials measured, and how that stands against what is stated. */
export const ConfigurationEntryOut = z
  .object({
    id: z.string(),
    url: z.string(),
    band: z.string(),
    setting: z.string(),
    invented: z.boolean(),
    cadr: z.union([QuantityOut, z.null()]),
    noise: z.union([SoundOut, z.null()]),
    power: z.union([QuantityOut, z.null()]),
    trials: z.int(),
    rooms: z.int(),
    interest: Interest,
    against_stated: AgainstStated,
  })
  .openapi("ConfigurationEntry");
export type ConfigurationEntryOut = z.infer<typeof ConfigurationEntryOut>;

/** The entries of a configuration with their figures over all trials. */
export async function viewConfigurationEntries(
  connection: Connection,
  publicUrl: string,
  { parts }: Pick<ConfigurationIn, "parts">,
  settings: readonly StoredSetting[],
  entries: readonly DescribedEntry[],
): Promise<ConfigurationEntryOut[]> {
  const pooled = await listCurrentPooled(
    connection,
    entries.map(({ id }) => id),
  );
  return entries.map(({ id, band, setting, settingId, invented }) => {
    const now = pooled.get(id);
    const statedJson = settings.find((one) => one.id === settingId)?.statedJson ?? "{}";
    return {
      id,
      url: `${publicUrl}/v1/entries/${id}`,
      band,
      setting,
      invented,
      cadr: now ? writeCadr(now, "m3/h") : null,
      noise: now ? writePooledNoise(now) : null,
      power: now ? writePower(now) : null,
      trials: now?.trials ?? 0,
      rooms: now?.rooms ?? 0,
      interest: now ? (JSON.parse(now.interestJson) as Record<string, number>) : {},
      against_stated: againstStated(now ?? null, statedJson, parts),
    };
  });
}
