import {
  findConfiguration,
  listSettingsOf,
  type StoredConfiguration,
  type StoredSetting,
} from "../db/configurations.ts";
import type { Connection } from "../db/database.ts";
import { differencesOf, settingDifferences } from "./configuration-differences.ts";
import { findSimilar, parseWords, type SimilarOut } from "./similar-configurations.ts";
import { writeStatedNoise } from "./write-noise.ts";

/** Configurations as readers see them, each with others that resemble it. */
export async function viewConfigurations(
  connection: Connection,
  publicUrl: string,
  stored: readonly StoredConfiguration[],
) {
  const settings = await listSettingsOf(
    connection,
    stored.map(({ id }) => id),
  );
  const similar = await findSimilar(connection, publicUrl, stored);
  return stored.map((one) => writeConfiguration(publicUrl, one, settings.get(one.id) ?? [], similar.get(one.id) ?? []));
}

/** One configuration by its id, with what it has otherwise than the one it derives from. @throws StoreError "not-found" */
export async function viewConfiguration(connection: Connection, publicUrl: string, id: string) {
  const stored = await findConfiguration(connection, id);
  const [view] = await viewConfigurations(connection, publicUrl, [stored]);
  return { ...view!, derivation: await derivationOf(connection, publicUrl, stored) };
}

function writeConfiguration(
  publicUrl: string,
  stored: StoredConfiguration,
  settings: readonly StoredSetting[],
  similar: readonly SimilarOut[],
) {
  const words = JSON.parse(stored.json) as Record<string, unknown>;
  return {
    id: stored.id,
    url: `${publicUrl}/v1/configurations/${stored.id}`,
    ...words,
    title: stored.title,
    kind: stored.kind,
    derived_from: stored.derivedFrom,
    settings: settings
      .filter(({ label }) => label !== "")
      .map(({ label, statedJson }) => {
        const stated = JSON.parse(statedJson) as Record<string, unknown>;
        return { label, ...stated, stated_noise_at_1m: writeStatedNoise(stated.stated_noise) };
      }),
    identity_sha256: stored.identitySha256,
    revision: stored.revision,
    created_at: stored.createdAt,
    similar,
  };
}

/** The configuration it derives from, as it stands today, and the difference in words. */
async function derivationOf(connection: Connection, publicUrl: string, stored: StoredConfiguration) {
  if (stored.derivedFrom === null) return null;
  let parent = await findConfiguration(connection, stored.derivedFrom);
  while (parent.mergedInto !== null) parent = await findConfiguration(connection, parent.mergedInto);
  const settings = await listSettingsOf(connection, [stored.id, parent.id]);
  const labels = (id: string) => (settings.get(id) ?? []).map(({ label }) => label);
  return {
    id: parent.id,
    url: `${publicUrl}/v1/configurations/${parent.id}`,
    title: parent.title,
    differs: [
      ...differencesOf(parseWords(stored.json), parseWords(parent.json)),
      ...settingDifferences(labels(stored.id), labels(parent.id)),
    ],
  };
}
