import type { trialMeasures } from "../db/schema/trials.ts";
import { TrialIn } from "./wire/trial.ts";
import { writeNoise } from "./write-noise.ts";

type Measures = Omit<Required<typeof trialMeasures.$inferInsert>, "rowSha256">;

/** What a trial's own readings say of noise at 1 m and of power, from its record as it was sent; a maker's words are none. */
export function measuresOf(
  trial: string,
  revision: number,
  sent: { readonly noise?: unknown; readonly power?: unknown },
): Measures {
  const noise = writeNoise(sent.noise)?.measured ?? null;
  const power = TrialIn.shape.power.safeParse(sent.power).data;
  return {
    trial,
    revision,
    noiseDb: noise && (noise.value ?? noise.high),
    noiseU: noise && ("u" in noise ? noise.u : null),
    noiseDof: noise && ("dof" in noise ? noise.dof : null),
    noiseBound: noise?.value === null ? "upper" : null,
    powerW: power?.value ?? null,
    powerU: power?.u ?? null,
  };
}
