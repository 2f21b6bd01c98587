import type { z } from "@hono/zod-openapi";
import { meanNoise, type NoiseReading, rateNoise } from "../analysis/noise-rating.ts";
import { SettingIn } from "./wire/configuration.ts";
import { type NoiseResults, type SoundOut, soundOut } from "./wire/sound.ts";
import { TrialIn } from "./wire/trial.ts";

const { noise: NoiseIn } = TrialIn.shape;
const { stated_noise: StatedNoiseIn } = SettingIn.shape;

/** What a trial's `noise`, as it was sent, says of the unit at 1 m; null where the trial has none. */
export function writeNoise(sent: unknown): NoiseResults | null {
  const read = NoiseIn.safeParse(sent);
  if (!read.success || read.data === undefined || read.data.length === 0) return null;
  const readings = read.data.map((reading, n) => {
    const basis = reading.meter === "stated_by_maker" ? ("stated_by_maker" as const) : ("measured" as const);
    return { n, basis, rating: rateNoise(toReading(reading)) };
  });
  const over = (wanted: "measured" | "stated_by_maker") =>
    soundOut(meanNoise(readings.filter(({ basis }) => basis === wanted).map(({ rating }) => rating)));
  return {
    measured: over("measured"),
    stated_by_maker: over("stated_by_maker"),
    readings: readings.map(({ n, basis, rating }) => ({
      n,
      basis,
      at_1m: soundOut(rating),
      background_correction: rating.kind === "not-rated" ? null : rating.k1Db,
      not_rated: rating.kind === "not-rated" ? rating.reason : null,
    })),
  };
}

/** A setting's `stated_noise`, as it was sent, brought to L_pA at 1 m; null where none is stated or none can be told. */
export function writeStatedNoise(sent: unknown): SoundOut | null {
  const read = StatedNoiseIn.safeParse(sent);
  if (!read.success || read.data === undefined) return null;
  return soundOut(rateNoise(toReading({ ...read.data, meter: "stated_by_maker" })));
}

function toReading(sent: NonNullable<z.infer<typeof NoiseIn>>[number]): NoiseReading {
  const { quantity, level, background, distance, meter } = sent;
  return { quantity, levelDb: level, backgroundDb: background ?? null, distanceM: distance ?? null, meter };
}
