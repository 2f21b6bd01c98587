import { welchSatterthwaite } from "../welch-satterthwaite.ts";
import type { Member } from "./member.ts";
import type { PartRelative } from "./part-relative.ts";
import { poolRoom, type RoomRate } from "./pool-room.ts";
import { roomCadrParts } from "./room-cadr.ts";

/** One submitter's figure of one entry: what counts as one laboratory, however many rooms it has. */
export interface Laboratory {
  readonly submitter: string;
  readonly rooms: readonly RoomRate[];
  /** What each of its rooms weighs in the figure. */
  readonly weights: readonly number[];
  /** V·k [m³/h] with the u of its own trials and volumes, before any spread between laboratories. */
  readonly cadrM3PerH: PartRelative;
  /** The Birge ratio by which its rooms widened u, at least 1. */
  readonly widening: number;
}

/**
 * The laboratories of an entry, in order of their submitters. In each room rates are pooled first and multiplied by V once,
 * u² = (V·u_k)² + (cadr·u_V/V)² with cadr the common rate `cadrM3PerH`. Rooms of one submitter share counter and habits:
 * pooled by 1/u², widened by the Birge ratio where over 1, they are one laboratory and not several.
 */
export function laboratoriesOf(members: readonly Member[], cadrM3PerH: number): Laboratory[] {
  const sorted = members.toSorted((a, b) => compare(a.submitter, b.submitter) || compare(a.trial, b.trial));
  return [...Map.groupBy(sorted, ({ submitter }) => submitter).values()].map((own) => {
    const rooms = [...Map.groupBy(own, ({ room }) => room).values()].map((inRoom) => poolRoom(inRoom, cadrM3PerH));
    return laboratory(rooms, cadrM3PerH);
  });
}

function laboratory(rooms: readonly RoomRate[], cadrM3PerH: number): Laboratory {
  const figures = rooms.map((room) => roomCadrParts(room, cadrM3PerH));
  const raw = figures.map(({ fromRates, fromVolume }) => 1 / (fromRates.u ** 2 + fromVolume.u ** 2));
  const sum = raw.reduce((a, b) => a + b, 0);
  const weights = raw.map((w) => w / sum);
  const value = figures.reduce((mean, figure, i) => mean + weights[i]! * figure.value, 0);
  const scatter = figures.reduce((q, figure, i) => q + raw[i]! * (figure.value - value) ** 2, 0);
  const widening = rooms.length > 1 ? Math.max(1, Math.sqrt(scatter / (rooms.length - 1))) : 1;
  const parts = figures.flatMap(({ fromRates, fromVolume }, i) =>
    [fromRates, fromVolume].map(({ u, dof }) => ({ u: weights[i]! * u, dof })),
  );
  const { dof } = welchSatterthwaite(parts);
  return {
    submitter: rooms[0]!.submitter,
    rooms,
    weights,
    cadrM3PerH: {
      value,
      u: widening / Math.sqrt(sum),
      dof: widening > 1 ? Math.min(dof, rooms.length - 1) : dof,
      relativeU: Math.hypot(...figures.map(({ relativeU }, i) => weights[i]! * relativeU)),
    },
    widening,
  };
}

/** By code units: the same order wherever it runs. */
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
