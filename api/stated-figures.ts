import { SettingIn } from "./wire/configuration.ts";
import type { EntryOut } from "./wire/entry.ts";
import type { QuantityIn } from "./wire/quantity.ts";
import { writeStatedNoise } from "./write-noise.ts";

/** What a setting's words state of noise, power and flow, in base units; what was measured stands elsewhere. */
export function readStated(statedJson: string): { out: EntryOut["stated"]; powerW: number | null } {
  const sent = JSON.parse(statedJson) as Record<string, unknown>;
  const power = SettingIn.shape.stated_power.safeParse(sent.stated_power).data;
  const flow = SettingIn.shape.stated_flow.safeParse(sent.stated_flow).data;
  const plain = (quantity: QuantityIn | undefined, unit: string) => (quantity ? { value: quantity.value, unit } : null);
  return {
    out: { noise: writeStatedNoise(sent.stated_noise), power: plain(power, "W"), flow: plain(flow, "m3/h") },
    powerW: power?.value ?? null,
  };
}
