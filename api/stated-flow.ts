import { findConfiguration, findConfigurationByIdentity, listSettings } from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { foldText, identityOf } from "./configuration-identity.ts";
import { flowAsSent, statedFlowM3PerH } from "./flow-as-sent.ts";
import { parseId } from "./public-id.ts";
import { ConfigurationIn, SettingIn } from "./wire/configuration.ts";

type Parts = ConfigurationIn["parts"];
type Stated = Pick<ConfigurationIn["settings"][number], "stated_flow">;

/** Of a configuration by id, or sent whole: what is stored of it already stands, for that is what will be read again. */
export async function findStatedFlow(
  connection: Connection,
  configuration: string | ConfigurationIn,
  label: string | undefined,
): Promise<number | null> {
  if (typeof configuration === "string") {
    return flowAsStored(connection, parseId("configuration", configuration), foldText(label ?? ""), []);
  }
  const existing = await findConfigurationByIdentity(connection, await identityOf(configuration));
  if (!existing) return flowAsSent(configuration, label);
  return flowAsStored(connection, existing.id, foldText(label ?? ""), configuration.settings);
}

async function flowAsStored(
  connection: Connection,
  id: string,
  folded: string,
  added: ConfigurationIn["settings"],
): Promise<number | null> {
  let found = await findConfiguration(connection, id);
  while (found.mergedInto !== null) found = await findConfiguration(connection, found.mergedInto);
  const stored = (await listSettings(connection, found.id)).find((setting) => setting.folded === folded);
  const setting = stored ? readStated(stored.statedJson) : added.find(({ label }) => foldText(label) === folded);
  return statedFlowM3PerH(partsOf(found.json), setting);
}

/** Of a stored trial, by its configuration and the row of its setting. */
export async function storedFlow(
  connection: Connection,
  configuration: string,
  setting: number,
): Promise<number | null> {
  const found = await findConfiguration(connection, configuration);
  const row = (await listSettings(connection, configuration)).find(({ id }) => id === setting);
  return statedFlowM3PerH(partsOf(found.json), row && readStated(row.statedJson));
}

function readStated(json: string): Stated {
  return SettingIn.pick({ stated_flow: true }).parse({
    stated_flow: (JSON.parse(json) as { stated_flow?: unknown }).stated_flow,
  });
}

function partsOf(json: string): Parts {
  return ConfigurationIn.shape.parts.parse((JSON.parse(json) as { parts: unknown }).parts);
}
