import type { Channel } from "../trial.ts";
import { meanSizeUm, type Scenario, type SizeBin } from "./scenario.ts";

/**
 * What one particle per cm³ of each size bin adds to a channel: the share of the bin inside the channel (on the log-size
 * axis) for number and raw counts, times the mass π/6·ρ·d³ (µg/m³ for ρ in g/cm³, d in µm) for mass.
 */
export function channelWeights(channel: Omit<Channel, "values" | "ceiling">, aerosol: Scenario["aerosol"]): number[] {
  return aerosol.sizes.map((bin) => {
    const share = shareInside(bin, channel.fromUm ?? 0, channel.toUm ?? Number.POSITIVE_INFINITY);
    return channel.quantity === "mass" ? share * (Math.PI / 6) * aerosol.densityGPerCm3 * meanSizeUm(bin) ** 3 : share;
  });
}

function shareInside(bin: SizeBin, fromUm: number, toUm: number): number {
  const low = Math.max(bin.fromUm, fromUm);
  const high = Math.min(bin.toUm, toUm);
  return high <= low ? 0 : Math.log(high / low) / Math.log(bin.toUm / bin.fromUm);
}
