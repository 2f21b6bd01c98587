import { z } from "@hono/zod-openapi";
import type { StoredSetting } from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { type DescribedEntry, listCurrentPooled, type Pooled } from "../db/entries.ts";
import { statedFlowM3PerH } from "./flow-as-sent.ts";
import { readStated } from "./stated-figures.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";
import { QuantityOut } from "./wire/quantity.ts";
import { SoundOut } from "./wire/sound.ts";
import { writeCadr, writePooledNoise, writePower } from "./write-ranked-entry.ts";

const Share = z.object({ value: z.number(), u: z.number() }).nullable();

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
    against_stated: z.object({
      noise: z
        .object({ value: z.number(), unit: z.literal("dB"), u: z.number() })
        .nullable()
        .openapi({ description: "Measured less stated, both at 1 m." }),
      power: Share.openapi({ description: "Measured over stated." }),
      flow: Share.openapi({ description: "CADR over the stated air flow: over 1 is impossible." }),
    }),
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
      against_stated: now ? againstStated(now, statedJson, parts) : { noise: null, power: null, flow: null },
    };
  });
}

/** Differences in dB and ratios; a stated power or flow is taken as known, a stated level with the u it is rated with. */
function againstStated(
  { noiseDb, noiseU, powerW, powerU, cadrM3PerH, u }: Pooled,
  statedJson: string,
  parts: ConfigurationIn["parts"],
): ConfigurationEntryOut["against_stated"] {
  const { noise, power, flow } = readStated(statedJson).out;
  const flowM3PerH = flow?.value ?? statedFlowM3PerH(parts, undefined);
  const over = (value: number | null, uOfIt: number | null, stated: number | null | undefined) =>
    value === null || uOfIt === null || !stated ? null : { value: value / stated, u: uOfIt / stated };
  return {
    noise:
      noiseDb === null || noiseU === null || noise === null || noise.value === null
        ? null
        : { value: noiseDb - noise.value, unit: "dB", u: Math.hypot(noiseU, noise.u) },
    power: over(powerW, powerU, power?.value),
    flow: over(cadrM3PerH, u, flowM3PerH),
  };
}
