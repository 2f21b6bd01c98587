import type { ByRoom } from "../../wire/entry.ts";
import type { ForestRow } from "../charts/forest-plot.tsx";
import { counted } from "../counts.ts";
import { paidWords } from "../who-paid.tsx";

/** Rooms as a forest plot shows them. */
export function forestRows(rooms: readonly ByRoom[]): ForestRow[] {
  return rooms.map((room) => ({
    ...room.cadr,
    name: roomName(room),
    about: aboutRoom(room),
    weight: room.weight,
  }));
}

/** More would be no picture any more. */
const MOST_DRAWN = 40;

/** The weightiest rooms, which are drawn. */
export function weightiest(rooms: readonly ByRoom[]): readonly ByRoom[] {
  return rooms.length > MOST_DRAWN ? rooms.toSorted((a, b) => b.weight - a.weight).slice(0, MOST_DRAWN) : rooms;
}

export function undrawnWords(drawn: number, rooms: number): string {
  return drawn < rooms ? ` The ${drawn} weightiest of ${rooms} rooms are drawn.` : "";
}

/** By whom, and in which of their rooms. */
export function roomName({ room, submitter }: Pick<ByRoom, "room" | "submitter">): string {
  return `${submitter.handle ?? submitter.id}: ${room.label ?? room.id}`;
}

function aboutRoom({ trials, paired, interest }: ByRoom): string {
  const kinds = Object.keys(interest).length;
  const paid = kinds > 1 ? "who paid differs, see the table" : paidWords(interest);
  return `${counted(trials.length, "test")}${pairedWords(paired, trials.length)}; ${paid}`;
}

export function pairedWords(paired: number, trials: number): string {
  if (paired === trials) return ", paired";
  return paired === 0 ? ", unpaired" : `, ${paired} paired`;
}
