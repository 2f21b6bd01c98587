import type { z } from "@hono/zod-openapi";
import type { Spread } from "../analysis/expected-elsewhere.ts";
import { type PooledCadr, poolCadr } from "../analysis/pooling/pool-cadr.ts";
import { parseUnit } from "../analysis/units.ts";
import type { Connection } from "../db/database.ts";
import type { DescribedEntry } from "../db/entries.ts";
import { type Member, readEntries } from "../db/members.ts";
import { findSpread } from "../db/spreads.ts";
import { countBy, toPoolMember } from "./pool-entry.ts";
import type { ByAerosol } from "./wire/by-aerosol.ts";
import { quantityWithin } from "./wire/quantity-out.ts";

type Out = z.infer<typeof ByAerosol>;

/** An entry's figures by the aerosol its trials used, most trials first. */
export async function poolByAerosol(connection: Connection, entry: DescribedEntry, unit: string): Promise<Out[]> {
  const [members, spread] = await Promise.all([listMembers(connection, entry), findSpread(connection)]);
  return byAerosol(members, spread, unit);
}

/** The same of members and a spread at hand. */
export function byAerosol(members: readonly Member[], spread: Spread, unit: string): Out[] {
  const groups = [...Map.groupBy(members, ({ aerosol }) => aerosol)];
  groups.sort(([a, x], [b, y]) => y.length - x.length || (a < b ? -1 : 1));
  return groups.map(([aerosol, some]) => ({
    aerosol,
    ...write(poolCadr(some.map(toPoolMember), spread), unit),
    interest: countBy(some, ({ interest }) => interest),
  }));
}

/** The trials that count in an entry now, in order of their ids. */
export async function listMembers(connection: Connection, entry: DescribedEntry): Promise<Member[]> {
  const states = await readEntries(connection, entry.settingId, entry.invented);
  const members = states.find((state) => state.entry.id === entry.id)?.members ?? [];
  return [...members].sort((a, b) => (a.trial < b.trial ? -1 : 1));
}

function write(pooled: PooledCadr, unitCode: string): Omit<Out, "aerosol" | "interest"> {
  const unit = parseUnit(unitCode, "flow");
  const { prediction, trials, rooms, submitters } = pooled;
  return {
    cadr: quantityWithin(pooled, pooled, unitCode),
    prediction: { low: unit.fromBase(prediction.low), high: unit.fromBase(prediction.high), unit: unit.code },
    trials,
    rooms,
    submitters,
  };
}
