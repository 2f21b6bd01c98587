import { type Client, createClient } from "@libsql/client";
import { SEALED } from "../../db/fixity/sealed-rows.ts";
import { migrateDatabase } from "../../db/migrate.ts";

export const TRIALS_AN_ENTRY = 10;
const ENTRIES_A_BLOCK = 1000;
const SUBMITTERS = 500;
const ROOMS = 2000;

/**
 * Fills an embedded file with invented figures: entries of one band, ten trials each, a pooled row of basis `all` for every
 * trial as it came, one of each other basis. Block by block by a recursive CTE, each block one transaction; a file that was
 * begun goes on where it stopped.
 */
export async function fillRegistry(url: string, wanted: number, tell: (line: string) => void): Promise<void> {
  await migrateDatabase(url);
  const client = createClient({ url });
  await client.execute("PRAGMA journal_mode = WAL");
  await client.execute("PRAGMA synchronous = OFF"); // a file that breaks is thrown away
  const { rows } = await client.execute("SELECT count(*) AS n FROM entries");
  const present = Number(rows[0]!.n);
  if (present === 0) await client.batch(FOUNDATIONS, "write");
  for (let from = present; from < wanted; from += ENTRIES_A_BLOCK) {
    await addBlock(client, from, Math.min(from + ENTRIES_A_BLOCK, wanted));
    if (from % 10_000 === 0) tell(`  ${from} of ${wanted} entries`);
  }
  // Nobody verifies these rows: hashing millions of them would only take time when the server starts.
  for (const table of Object.keys(SEALED)) {
    await client.execute(`UPDATE ${table} SET row_sha256 = 'none' WHERE row_sha256 IS NULL`);
  }
  await client.execute("PRAGMA wal_checkpoint(TRUNCATE)");
  await client.execute("ANALYZE");
  client.close();
}

const AT = "'2026-01-01T00:00:00.000Z'";
const upTo = (name: string, count: number) =>
  `WITH RECURSIVE ${name}(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM ${name} WHERE i < ${count - 1})`;

const FOUNDATIONS = [
  `INSERT INTO series (sha256, rows, channels_json, bytes) VALUES ('none', 1, '[]', zeroblob(16))`,
  `INSERT INTO submitters (id, created_at) ${upTo("s", SUBMITTERS)} SELECT printf('sub-%011d', i), ${AT} FROM s`,
  `INSERT INTO rooms (id, submitter, created_at) ${upTo("r", ROOMS)} SELECT printf('rom-%011d', i), printf('sub-%011d', i % ${SUBMITTERS}), ${AT} FROM r`,
  `INSERT INTO room_revisions (room, revision, volume_m3, volume_u, basis, at) ${upTo("r", ROOMS)} SELECT printf('rom-%011d', i), 1, 15 + i % 65, 0.02 * (15 + i % 65), 'stated', ${AT} FROM r`,
];

/** An even number from 0 to 1 that seems random, from a whole expression; each salt has a multiplier of its own. */
const MULTIPLIERS = [2654435761, 2246822519, 3266489917, 668265263, 374761393, 1597334677];
const even = (of: string, salt: number) =>
  `(((${of}) * ${MULTIPLIERS[salt - 1]} + ${salt} * 40503) % 1000003 / 1000003.0)`;
const seqOf = (trial: string) => `(1 + (${trial}))`;

async function addBlock(client: Client, from: number, to: number): Promise<void> {
  const n = `n(i) AS (SELECT ${from} UNION ALL SELECT i + 1 FROM n WHERE i < ${to - 1})`;
  const last = to * TRIALS_AN_ENTRY - 1;
  const t = `t(k) AS (SELECT ${from * TRIALS_AN_ENTRY} UNION ALL SELECT k + 1 FROM t WHERE k < ${last})`;
  const entryOf = `(k / ${TRIALS_AN_ENTRY})`;
  const trueCadr = (i: string) => `(40 + 600 * ${even(i, 1)} * ${even(i, 2)})`;
  const room = `((k * 7919) % ${ROOMS})`;
  const cadr = `(${trueCadr(entryOf)} * (0.8 + 0.4 * ${even("k", 3)}))`;
  const volume = `(15 + ${room} % 65)`;
  const interest = `CASE k % 5 WHEN 0 THEN 'paid' WHEN 1 THEN 'maker_or_seller' ELSE 'independent' END`;
  const trial = `printf('trl-%011d', k)`;
  // Pooled figures: those of the last trials of an entry count 10; a hundredth of the entries keep to one unpaired trial.
  const single = `(${entryOf} % 100 = 7)`;
  const value = `${trueCadr(entryOf)}`;
  const counted = `CASE WHEN ${single} THEN 1 ELSE 1 + k % ${TRIALS_AN_ENTRY} END`;
  const relative = `(0.04 + 0.2 * ${even(entryOf, 4)})`;
  const pooledRows = (basis: string, where: string) =>
    `INSERT INTO pooled (entry, basis, seq, cadr_m3_per_h, u, dof, relative_u, low, high, prediction_low, prediction_high, prediction_u, prediction_dof, prediction_relative_u, tau, i2, q, left_out_change_m3_per_h, spread, trials, rooms, submitters, unpaired, interest_json, aerosols_json, noise_db, noise_u, noise_trials, power_w, power_u, power_trials, members_hash, method_version)
     WITH RECURSIVE ${t}
     SELECT printf('ent-%011d', ${entryOf}), '${basis}', ${seqOf("k")}, ${value}, ${relative} * ${value}, 8 + ${entryOf} % 10, 0.05, ${value} * (1 - 2.2 * ${relative}), ${value} * (1 + 2.2 * ${relative}), ${value} * 0.6, ${value} * 1.5, 0.18 * ${value}, 8 + ${entryOf} % 10, 0.14, 0.1, 0.4, 7.5, 3.1, 1,
       ${counted}, ${counted}, ${counted}, CASE WHEN ${single} THEN 1 ELSE 0 END, '{"independent":6,"maker_or_seller":2,"paid":2}', CASE ${entryOf} % 4 WHEN 0 THEN '{"oil_smoke":3,"salt":7}' WHEN 1 THEN '{"incense":10}' ELSE '{"salt":10}' END,
       CASE WHEN ${entryOf} % 10 < 8 THEN 30 + 25 * ${even(entryOf, 5)} END, CASE WHEN ${entryOf} % 10 < 8 THEN 2.5 END, CASE WHEN ${entryOf} % 10 < 8 THEN 10 ELSE 0 END,
       CASE WHEN ${entryOf} % 10 < 7 THEN 5 + 80 * ${even(entryOf, 6)} END, CASE WHEN ${entryOf} % 10 < 7 THEN 1 END, CASE WHEN ${entryOf} % 10 < 7 THEN 10 ELSE 0 END,
       printf('%064x', k), '1.0.0' FROM t WHERE ${where}`;
  const lastOfEntry = `k % ${TRIALS_AN_ENTRY} = ${TRIALS_AN_ENTRY - 1}`;
  await client.batch(
    [
      `INSERT INTO configurations (id, identity_sha256, kind, submitter, created_at) WITH RECURSIVE ${n} SELECT printf('cfg-%011d', i), printf('%064x', i), CASE i % 3 WHEN 0 THEN 'commercial' ELSE 'user_built' END, printf('sub-%011d', i % ${SUBMITTERS}), ${AT} FROM n`,
      `INSERT INTO configuration_revisions (configuration, revision, title, json, sha256, at) WITH RECURSIVE ${n} SELECT printf('cfg-%011d', i), 1, 'Invented box ' || i, json_object('title', 'Invented box ' || i, 'kind', CASE i % 3 WHEN 0 THEN 'commercial' ELSE 'user_built' END, 'arrangement', 'one panel on the suction side', 'parts', json_array(json_object('part', 'fan', 'count', 1 + i % 4, 'description', 'axial fan, 200 mm'), json_object('part', 'filter', 'count', 1, 'description', 'pleated panel ' || i)), 'costs', json_array(json_object('item', 'whole', 'money', json_object('value', 30 + i % 400, 'currency', CASE i % 6 WHEN 0 THEN 'USD' ELSE 'EUR' END, 'date', '2026-01-01')))), printf('%064x', i), ${AT} FROM n`,
      `INSERT INTO settings (id, configuration, label, folded, stated_json, at) WITH RECURSIVE ${n} SELECT i + 1, printf('cfg-%011d', i), 'High', 'high', '{}', ${AT} FROM n`,
      `INSERT INTO entries (id, setting, band, invented, created_at) WITH RECURSIVE ${n} SELECT printf('ent-%011d', i), i + 1, '0.1-1.0', 0, ${AT} FROM n`,
      `INSERT INTO events (seq, at, kind, subject, actor) WITH RECURSIVE ${t} SELECT ${seqOf("k")}, strftime('%Y-%m-%dT%H:%M:%fZ', 1767225600 + k * 10, 'unixepoch'), 'trial-stored', ${trial}, printf('sub-%011d', ${room} % ${SUBMITTERS}) FROM t`,
      `INSERT INTO trials (id, submitter, configuration, setting, room, interest, aerosol, invented, content_mac, created_at) WITH RECURSIVE ${t} SELECT ${trial}, printf('sub-%011d', ${room} % ${SUBMITTERS}), printf('cfg-%011d', ${entryOf}), ${entryOf} + 1, printf('rom-%011d', ${room}), ${interest}, 'salt', 0, randomblob(32), ${AT} FROM t`,
      `INSERT INTO trial_revisions (trial, revision, json, sha256, at) WITH RECURSIVE ${t} SELECT ${trial}, 1, '{"note":"invented"}', printf('%064x', k), ${AT} FROM t`,
      `INSERT INTO trial_states (trial, state, seq) WITH RECURSIVE ${t} SELECT ${trial}, 'listed', ${seqOf("k")} FROM t`,
      `INSERT INTO runs (trial, revision, n, role, counter, series, analysis_json) WITH RECURSIVE ${t} SELECT ${trial}, 1, 0, 'full_log', 'c1', 'none', '{}' FROM t`,
      `INSERT INTO results (trial, revision, method_version, room_revision, json, sha256, at) WITH RECURSIVE ${t} SELECT ${trial}, 1, '1.0.0', 1, '{"results":[]}', printf('%064x', k), ${AT} FROM t`,
      `INSERT INTO result_bands (trial, revision, method_version, band, cadr_m3_per_h, cadr_u, cadr_dof, k_difference_per_h, k_difference_u, k_difference_dof, paired, k_natural_per_h, k_natural_u, natural_source) WITH RECURSIVE ${t} SELECT ${trial}, 1, '1.0.0', '0.1-1.0', ${cadr}, 0.04 * ${cadr}, 30, ${cadr} / ${volume}, 0.03 * ${cadr} / ${volume}, 30, k % 4 > 0, 0.5, 0.05, ${trial} || '/1/0' FROM t`,
      `INSERT INTO trial_measures (trial, revision, noise_db, noise_u, power_w) WITH RECURSIVE ${t} SELECT ${trial}, 1, CASE WHEN ${entryOf} % 10 < 8 THEN 45 END, CASE WHEN ${entryOf} % 10 < 8 THEN 2.5 END, CASE WHEN ${entryOf} % 10 < 7 THEN 30 END FROM t`,
      pooledRows("all", "1"),
      pooledRows("independent", lastOfEntry),
      pooledRows("paired", lastOfEntry),
      pooledRows("independent_paired", lastOfEntry),
    ],
    "write",
  );
}
