import { METHOD_VERSION } from "../analysis/method-version.ts";
import type { Trial } from "../analysis/trial.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import { packSeries } from "./series-blob.ts";

/**
 * What the draws of a trial's analysis begin from: SHA-256 of the room's air, the counters, the runs as read, and the method
 * version. Its volume is left to the analysis, for it is the stored room's, known only once the trial is stored. No id and
 * no clock enters, so that a stored trial analysed again gives the same to the last digit.
 */
export async function trialSeed({ room, counters, runs }: Omit<Trial, "seed">): Promise<string> {
  const { volumeM3: _, ...air } = room;
  const read = await Promise.all(
    runs.map(async ({ series, ...run }) => {
      const { sha256 } = await packSeries(series);
      return { ...run, series: { sha256, cropFromS: series.cropFromS, cropToS: series.cropToS } };
    }),
  );
  return sha256Hex(canonicalJson({ air, counters, runs: read, methodVersion: METHOD_VERSION }));
}
