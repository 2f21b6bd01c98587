import type { Spread } from "../analysis/expected-elsewhere.ts";
import { poolCadr } from "../analysis/pooling/pool-cadr.ts";
import { roomCadr } from "../analysis/pooling/room-cadr.ts";
import type { Member } from "../db/members.ts";
import type { RoomCorrection } from "../db/room-corrections.ts";
import type { TrialRow } from "../db/trial-rows.ts";
import { countBy, toPoolMember } from "./pool-entry.ts";
import type { ByRoom } from "./wire/entry.ts";
import { quantityWithin } from "./wire/quantity-out.ts";

interface Known {
  readonly spread: Spread;
  readonly trials: readonly Pick<TrialRow, "id" | "roomLabel" | "handle">[];
  readonly corrections: ReadonlyMap<string, RoomCorrection>;
  readonly publicUrl: string;
  readonly unit: string;
}

/** The rooms an entry's figure is made of, as its pool takes them: those of a submitter together, the weightiest first. */
export function poolByRoom(members: readonly Member[], known: Known): ByRoom[] {
  if (members.length === 0) return [];
  const pooled = poolCadr(members.map(toPoolMember), known.spread);
  const rowOf = new Map(known.trials.map((row) => [row.id, row]));
  const membersIn = Map.groupBy(members, ({ room }) => room);
  const laboratories = pooled.laboratories.map((laboratory, i) => ({ laboratory, weight: pooled.weights[i]! }));
  laboratories.sort((a, b) => b.weight - a.weight);
  return laboratories.flatMap(({ laboratory, weight }) => {
    const rooms = laboratory.rooms.map((rate, i): ByRoom => {
      const here = membersIn.get(rate.room)!;
      const row = rowOf.get(here[0]!.trial);
      const cadr = roomCadr(rate, pooled.value);
      return {
        room: { id: rate.room, url: `${known.publicUrl}/v1/rooms/${rate.room}`, label: row?.roomLabel ?? null },
        submitter: { id: rate.submitter, handle: row?.handle ?? null },
        cadr: quantityWithin(cadr, cadr, known.unit),
        weight: weight * laboratory.weights[i]!,
        trials: here.map(({ trial }) => trial),
        paired: here.filter(({ paired }) => paired).length,
        interest: countBy(here, ({ interest }) => interest),
        corrected: known.corrections.get(rate.room) ?? null,
      };
    });
    return rooms.sort((a, b) => b.weight - a.weight);
  });
}
