import { findConfiguration, findConfigurationByIdentity, listSettings } from "../db/configurations.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import type { Connection } from "../db/database.ts";
import type { NewConfiguration, NewSetting } from "../db/insert-configuration.ts";
import { StoreError } from "../db/store-error.ts";
import { foldText, identityOf } from "./configuration-identity.ts";
import { traitsOf } from "./configuration-traits.ts";
import { invalid } from "./problem.ts";
import { makeId, parseId, type Random } from "./public-id.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";

/** A configuration as a trial names or describes it, found or still to be stored. */
export interface ResolvedConfiguration {
  readonly id: string;
  readonly identitySha256: string;
  readonly created: NewConfiguration | null;
  readonly newSettings: readonly NewSetting[];
  /** All settings, stored and new, in order. `id` is null where it is not stored yet. */
  readonly settings: readonly { readonly id: number | null; readonly label: string; readonly folded: string }[];
}

interface Context {
  readonly connection: Connection;
  readonly submitter: string;
  readonly at: string;
  readonly random: Random;
  /** Where in the request the configuration stands. */
  readonly path: readonly PropertyKey[];
}

/**
 * Finds the configuration with these parts, or makes it; settings sent with it that are not known yet are added.
 * `sent` is the JSON as it came: the words are stored as they were written.
 */
export async function resolveConfiguration(
  { connection, submitter, at, random, path }: Context,
  configuration: string | ConfigurationIn,
  sent: unknown,
): Promise<ResolvedConfiguration> {
  if (typeof configuration === "string") {
    const found = await followMerges(connection, parseId("configuration", configuration));
    return { ...found, created: null, newSettings: [], settings: await listSettings(connection, found.id) };
  }
  const identitySha256 = await identityOf(configuration);
  const existing = await findConfigurationByIdentity(connection, identitySha256);
  const id = existing ? (await followMerges(connection, existing.id)).id : makeId("configuration", random);
  const stored = existing ? await listSettings(connection, id) : [];
  const newSettings = settingsToAdd(configuration, sent, id, new Set(stored.map(({ folded }) => folded)), at);
  const settings = [...stored, ...newSettings.map(({ label, folded }) => ({ id: null, label, folded }))];
  if (existing) return { id, identitySha256, created: null, newSettings, settings };
  const { title, kind } = configuration;
  const derivedFrom =
    configuration.derived_from === undefined ? null : await findParent(connection, configuration.derived_from, path);
  const { settings: _, ...words } = sent as Record<string, unknown>;
  const json = canonicalJson(words);
  return {
    id,
    identitySha256,
    created: {
      configuration: { id, identitySha256, kind, derivedFrom, submitter, createdAt: at },
      revision: { configuration: id, revision: 1, title, json, sha256: await sha256Hex(json), at },
      traits: await traitsOf(configuration),
    },
    newSettings,
    settings,
  };
}

/**
 * The setting a trial was made at. Without a label: the one way to run of a thing that has no labelled settings.
 * @throws StoreError "unknown-setting" with the labels there are
 */
export function chooseSetting(
  configuration: ResolvedConfiguration,
  label: string | undefined,
  at: string,
): { readonly folded: string; readonly label: string; readonly id: number | null; readonly added: NewSetting | null } {
  const folded = foldText(label ?? "");
  const found = configuration.settings.find((setting) => setting.folded === folded);
  if (found) return { ...found, added: null };
  if (folded === "" && configuration.settings.length === 0) {
    const added = { configuration: configuration.id, label: "", folded: "", statedJson: "{}", at };
    return { folded, label: "", id: null, added };
  }
  const labels = configuration.settings.map((setting) => setting.label).filter((text) => text !== "");
  throw new StoreError(
    "unknown-setting",
    `Name one of the configuration's settings: ${labels.join(", ") || "it has none"}.`,
    {
      errors: [{ detail: `The settings are: ${labels.join(", ") || "none"}.`, pointer: "#/setting" }],
      settings: labels,
    },
  );
}

/** Settings sent that are not known yet, with what was stated of each as it was sent. */
export function settingsToAdd(
  configuration: ConfigurationIn,
  sent: unknown,
  id: string,
  known: Set<string>,
  at: string,
): NewSetting[] {
  const sentSettings = ((sent as { settings?: unknown[] }).settings ?? []) as Record<string, unknown>[];
  return configuration.settings.flatMap(({ label }, i) => {
    const folded = foldText(label);
    if (known.has(folded)) return [];
    known.add(folded);
    const { label: _, ...stated } = sentSettings[i] ?? {};
    return [{ configuration: id, label, folded, statedJson: canonicalJson(stated), at }];
  });
}

/** The configuration that an id stands for today. */
export async function followMerges(connection: Connection, id: string) {
  let found = await findConfiguration(connection, id);
  while (found.mergedInto !== null) found = await findConfiguration(connection, found.mergedInto);
  return { id: found.id, identitySha256: found.identitySha256 };
}

async function findParent(connection: Connection, text: string, path: readonly PropertyKey[]): Promise<string> {
  try {
    return (await followMerges(connection, parseId("configuration", text))).id;
  } catch (error) {
    if (error instanceof StoreError) throw invalid([...path, "derived_from"], error.message);
    throw error;
  }
}
