import { foldText } from "./configuration-identity.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";

type Flows = readonly Pick<ConfigurationIn["parts"][number], "part" | "count" | "stated_flow">[];
type Stated = Pick<ConfigurationIn["settings"][number], "stated_flow">;

/** What of a configuration says how much air it moves. */
export interface StatedFlows {
  readonly parts: Flows;
  readonly settings: readonly Pick<ConfigurationIn["settings"][number], "label" | "stated_flow">[];
}

/** Air flow of a unit at a setting as its maker states it [m³/h]: the setting's, else that of all its fans; null where unknown. */
export function statedFlowM3PerH(parts: Flows, setting: Stated | undefined): number | null {
  if (setting?.stated_flow) return setting.stated_flow.value;
  const fans = parts.filter(({ part }) => part === "fan");
  if (fans.length === 0 || fans.some(({ stated_flow: flow }) => flow === undefined)) return null;
  return fans.reduce((sum, { count, stated_flow: flow }) => sum + count * flow!.value, 0);
}

/** Of a configuration sent whole, by the label of its setting. */
export function flowAsSent({ parts, settings }: StatedFlows, label: string | undefined): number | null {
  const folded = foldText(label ?? "");
  return statedFlowM3PerH(
    parts,
    settings.find((setting) => foldText(setting.label) === folded),
  );
}
