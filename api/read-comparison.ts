import { compare } from "../analysis/comparing.ts";
import { interval95 } from "../analysis/estimate.ts";
import { type PooledCadr, poolCadr } from "../analysis/pooling/pool-cadr.ts";
import { welchSatterthwaite } from "../analysis/welch-satterthwaite.ts";
import type { Connection, Database } from "../db/database.ts";
import { type DescribedEntry, findEntry, findMovedEntry } from "../db/entries.ts";
import { findBases, findStated } from "../db/entry-figures.ts";
import type { StoredSpread } from "../db/spreads.ts";
import { differencesOf } from "./configuration-differences.ts";
import { listMembers } from "./pool-by-aerosol.ts";
import { TAKES, toPoolMember } from "./pool-entry.ts";
import { invalid } from "./problem.ts";
import { parseId } from "./public-id.ts";
import { flowUnit } from "./read-leaderboard.ts";
import { parseWords } from "./similar-configurations.ts";
import { conditionDifferences, readConditions } from "./trial-conditions.ts";
import type { Compared, ComparisonOut, ComparisonQuery } from "./wire/comparison.ts";
import type { QuantityOut } from "./wire/quantity.ts";
import { quantityWithin } from "./wire/quantity-out.ts";
import { wholeCost, writeCadr, writePooledNoise, writePower } from "./write-ranked-entry.ts";

const FEWEST = 2;
const MOST = 6;

/** Two to six entries of a band side by side, and every two of them against each other. */
export async function readComparison(db: Database, publicUrl: string, query: ComparisonQuery): Promise<ComparisonOut> {
  const unit = flowUnit(query.unit);
  const described = await Promise.all(readIds(query.entries).map((id) => findCurrent(db, id)));
  const bands = new Set(described.map(({ band }) => band));
  if (bands.size > 1) {
    throw invalid(["entries"], `Entries of ${[...bands].join(" and ")} are rates of different particles.`);
  }
  const loaded = await Promise.all(described.map((entry) => load(db.read, entry, query.basis)));
  const pairs = loaded.flatMap((a, i) => loaded.slice(i + 1).map((b) => pairOf(a, b, unit)));
  return {
    band: described[0]!.band as ComparisonOut["band"],
    basis: query.basis,
    unit,
    entries: loaded.map((one) => writeCompared(one, publicUrl, unit)),
    pairs,
  };
}

function readIds(text: string): string[] {
  const ids = text
    .split(",")
    .map((id) => id.trim())
    .filter(Boolean)
    .map((id) => parseId("entry", id));
  if (new Set(ids).size !== ids.length) throw invalid(["entries"], "An entry is named twice.");
  if (ids.length < FEWEST || ids.length > MOST) {
    throw invalid(["entries"], `Name ${FEWEST} to ${MOST} entries with commas between, not ${ids.length}.`);
  }
  return ids;
}

async function findCurrent(db: Database, id: string): Promise<DescribedEntry> {
  const entry = await findEntry(db, id);
  const moved = await findMovedEntry(db.read, id);
  return moved === null ? entry : findEntry(db, moved);
}

type Loaded = Awaited<ReturnType<typeof load>>;

async function load(connection: Connection, entry: DescribedEntry, basis: ComparisonQuery["basis"]) {
  const [all, bases, { configurationJson }] = await Promise.all([
    listMembers(connection, entry),
    findBases(connection, entry.id),
    findStated(connection, entry.settingId),
  ]);
  const members = all.filter(TAKES[basis]);
  const figures = bases.get(basis) ?? null;
  return {
    entry,
    figures,
    pool: figures === null ? null : poolOf(members, figures.spread),
    conditions: await readConditions(connection, members),
    words: parseWords(configurationJson),
    cost: wholeCost(configurationJson),
  };
}

function poolOf(members: Parameters<typeof toPoolMember>[0][], spread: StoredSpread): PooledCadr | null {
  return members.length === 0 ? null : poolCadr(members.map(toPoolMember), spread);
}

function writeCompared({ entry, figures, conditions, cost }: Loaded, publicUrl: string, unit: string): Compared {
  const pooled = figures?.pooled;
  const { id, configuration, title, kind, setting, invented } = entry;
  return {
    id,
    url: `${publicUrl}/v1/entries/${id}`,
    configuration: { id: configuration, title, kind },
    setting,
    cadr: pooled ? writeCadr(pooled, unit) : null,
    noise: pooled ? writePooledNoise(pooled) : null,
    power: pooled ? writePower(pooled) : null,
    cost,
    trials: pooled?.trials ?? 0,
    rooms: pooled?.rooms ?? 0,
    submitters: pooled?.submitters ?? 0,
    serious: pooled?.serious ?? 0,
    interest: JSON.parse(pooled?.interestJson ?? "{}") as Record<string, number>,
    conditions,
    invented,
  };
}

function pairOf(a: Loaded, b: Loaded, unit: string): ComparisonOut["pairs"][number] {
  const difference = a.pool && b.pool ? compare(a.pool, b.pool) : null;
  return {
    a: a.entry.id,
    b: b.entry.id,
    difference: difference && quantityWithin(difference, difference, unit),
    p_stronger: difference?.pStronger ?? null,
    paired_rooms: difference?.pairedRooms ?? 0,
    noise_difference: noiseDifference(a, b),
    parts: [...differencesOf(a.words, b.words), ...settingDifference(a, b)],
    conditions: conditionDifferences(a.conditions, b.conditions),
  };
}

/** L_pA of one less that of the other at 1 m; both read by meters of their own, so independent. Null where one is a bound. */
function noiseDifference(a: Loaded, b: Loaded): QuantityOut | null {
  const [x, y] = [a.figures?.pooled, b.figures?.pooled];
  if (x?.noiseDb == null || y?.noiseDb == null || x.noiseU === null || y.noiseU === null) return null;
  const { u, dof } = welchSatterthwaite([
    { u: x.noiseU, dof: x.noiseDof ?? Infinity },
    { u: y.noiseU, dof: y.noiseDof ?? Infinity },
  ]);
  const difference = { value: x.noiseDb - y.noiseDb, u, dof };
  return { ...difference, unit: "dB", dof: Number.isFinite(dof) ? dof : null, ...interval95(difference) };
}

function settingDifference(a: Loaded, b: Loaded): string[] {
  const [mine, theirs] = [a.entry.setting, b.entry.setting];
  return mine === theirs ? [] : [`setting ${mine || "(none)"} instead of ${theirs || "(none)"}`];
}
