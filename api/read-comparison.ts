import { compare } from "../analysis/comparing.ts";
import { type PooledCadr, poolCadr } from "../analysis/pooling/pool-cadr.ts";
import type { Connection, Database } from "../db/database.ts";
import { type DescribedEntry, findEntry, findMovedEntry } from "../db/entries.ts";
import { findBases, findStated } from "../db/entry-figures.ts";
import type { StoredSpread } from "../db/spreads.ts";
import { differencesOf } from "./configuration-differences.ts";
import { measuredDifference, noiseDifference } from "./measured-difference.ts";
import { listMembers } from "./pool-by-aerosol.ts";
import { TAKES, toPoolMember } from "./pool-entry.ts";
import { invalid } from "./problem.ts";
import { parseId } from "./public-id.ts";
import { flowUnit } from "./read-leaderboard.ts";
import { parseWords } from "./similar-configurations.ts";
import { conditionDifferences, readConditions } from "./trial-conditions.ts";
import type { Compared, ComparisonOut, ComparisonQuery } from "./wire/comparison.ts";
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
type Words = Loaded["words"];

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
  const [aNoise, bNoise] = [a, b].map(({ figures }) => figures && writePooledNoise(figures.pooled));
  const [aPower, bPower] = [a, b].map(({ figures }) => figures && writePower(figures.pooled));
  return {
    a: a.entry.id,
    b: b.entry.id,
    difference: difference && quantityWithin(difference, difference, unit),
    p_stronger: difference?.pStronger ?? null,
    paired_rooms: difference?.pairedRooms ?? 0,
    noise_difference: noiseDifference(aNoise ?? null, bNoise ?? null),
    power_difference: aPower && bPower ? measuredDifference(aPower, bPower, "W") : null,
    parts: [...partDifferences(a, b), ...settingDifference(a, b)],
    conditions: conditionDifferences(a.conditions, b.conditions),
  };
}

/** That nobody makes what is home-made needs no words. */
function partDifferences(a: Loaded, b: Loaded): string[] {
  if (a.words.kind === b.words.kind) return differencesOf(a.words, b.words);
  const [mine, theirs] = [a, b].map(({ words: { maker: _, model: __, ...words } }) => words) as [Words, Words];
  return differencesOf(mine, theirs);
}

function settingDifference(a: Loaded, b: Loaded): string[] {
  const [mine, theirs] = [a.entry.setting, b.entry.setting];
  return mine === theirs ? [] : [`setting ${mine || "(none)"} instead of ${theirs || "(none)"}`];
}
