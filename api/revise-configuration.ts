import { findConfiguration, listSettings } from "../db/configurations.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";
import { insertConfiguration, insertConfigurationRevision } from "../db/insert-configuration.ts";
import { identityOf } from "./configuration-identity.ts";
import { traitsOf } from "./configuration-traits.ts";
import type { Dependencies } from "./environment.ts";
import { refuseMerged } from "./merge-configurations.ts";
import { invalid } from "./problem.ts";
import { parseId } from "./public-id.ts";
import { followMerges, settingsToAdd } from "./resolve-configuration.ts";
import { retrying } from "./store-trial.ts";
import type { ConfigurationIn } from "./wire/configuration.ts";

/**
 * Corrects or completes the words of a configuration; new settings sent with them are added. What could move the clean air
 * delivery rate stays: other parts are another configuration.
 * @returns whether the words changed
 * @throws RequestError "invalid" where the parts, or what it derives from, would change; StoreError "already-merged"
 */
export async function reviseConfiguration(
  { db, now }: Dependencies,
  it: { id: string; actor: string; configuration: ConfigurationIn; sent: unknown },
): Promise<boolean> {
  const { id, actor, configuration, sent } = it;
  const identitySha256 = await identityOf(configuration);
  const { settings: _, derived_from: __, ...words } = sent as Record<string, unknown>;
  const json = canonicalJson(words);
  const sha256 = await sha256Hex(json);
  const traits = await traitsOf(configuration);
  return retrying(() =>
    db.write(async (connection) => {
      const stored = await findConfiguration(connection, id);
      refuseMerged(stored);
      if (stored.identitySha256 !== identitySha256) {
        throw invalid(
          ["parts"],
          "A revision corrects words: with other kind, maker, model, arrangement or parts it is another configuration, linked by derived_from.",
        );
      }
      if (configuration.derived_from !== undefined) {
        const parent = parseId("configuration", configuration.derived_from);
        const now = stored.derivedFrom && (await followMerges(connection, stored.derivedFrom)).id;
        if (parent !== stored.derivedFrom && parent !== now)
          throw invalid(["derived_from"], "What a configuration derives from is said when it is created.");
      }
      const at = now().toISOString();
      const known = new Set((await listSettings(connection, id)).map(({ folded }) => folded));
      const newSettings = settingsToAdd(configuration, sent, id, known, at);
      if (stored.sha256 === sha256) {
        await insertConfiguration(connection, { created: null, newSettings, submitter: actor, at });
        return false;
      }
      const revision = stored.revision + 1;
      await insertConfigurationRevision(connection, {
        revision: { configuration: id, revision, title: configuration.title, json, sha256, at },
        traits,
        newSettings,
        actor,
      });
      return true;
    }),
  );
}
