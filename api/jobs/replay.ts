import type { History } from "../../db/derived.ts";
import type { Basis } from "../../db/entries.ts";
import type { NewPooled } from "../../db/insert-pooled.ts";
import type { MemberFigures } from "../../db/members.ts";
import type { trialStates } from "../../db/schema/standings.ts";
import { poolEntry, type Stood } from "../pool-entry.ts";
import { replayResults } from "./replay-results.ts";

type State = typeof trialStates.$inferInsert;
type Figures = History["figures"][number];
type Event = History["events"][number];

/** Whether a trial counts after an event about it. */
const COUNTS: Partial<Record<string, boolean>> = {
  "trial-stored": true,
  "trial-listed": true,
  "trial-held": false,
  "trial-withdrawn": false,
};

/** One entry on its way through the events. */
interface Entry {
  readonly id: string;
  readonly members: Map<string, MemberFigures>;
  readonly stood: Map<Basis, Stood>;
}

/** Makes states and pooled figures by letting everything happen again, in order, over what is stored. */
export async function replay(history: History) {
  const results = replayResults(history);
  const revisionsOf = Map.groupBy(history.rooms, ({ room }) => room);
  const movesOf = Map.groupBy(history.moves, ({ configuration }) => configuration);
  const byId = new Map(history.entries.map(({ id }): [string, Entry] => [id, emptyEntry(id)]));
  const byPlace = new Map(history.entries.map((entry) => [placeOf(entry), byId.get(entry.id)!]));
  const places = Map.groupBy(history.entries, ({ setting }) => setting);
  const inRoom = new Map<string, Set<Entry>>();
  const moved = new Map<number, number>();
  const corrections = new Map<string, number>();
  const states = new Map<string, State>();
  const doubted = new Set<string>();
  const pooled: (NewPooled & { readonly seq: number })[] = [];
  let spread = history.spreads[0]!;

  const entryOf = ({ setting, band, invented }: Pick<Figures, "setting" | "band" | "invented">) => {
    let at = setting;
    for (let to = moved.get(at); to !== undefined; to = moved.get(at)) at = to;
    return byPlace.get(placeOf({ setting: at, band, invented }));
  };

  async function pool(entry: Entry, seq: number): Promise<void> {
    const members = [...entry.members.values()].map((figures) => {
      const { revision, volumeM3, volumeU } = revisionsOf.get(figures.room)![corrections.get(figures.room) ?? 0]!;
      return { ...figures, roomRevision: revision, volumeM3, volumeU };
    });
    for (const row of await poolEntry(entry.id, members, entry.stood, spread, results.adopted().version)) {
      entry.stood.set(row.basis, row);
      pooled.push({ ...row, seq });
    }
  }

  function count({ subject, kind, seq }: Event, counts: boolean): Set<Entry> {
    states.set(subject, {
      trial: subject,
      state: counts ? "listed" : kind === "trial-withdrawn" ? "withdrawn" : "pending",
      seq,
    });
    return counts ? join(subject) : leave(subject);
  }

  /** The trial counts from now on where its figures are; where it counted all along nothing is touched. */
  function join(trial: string): Set<Entry> {
    const touched = new Set<Entry>();
    for (const figures of results.counted(trial)) {
      const entry = entryOf(figures);
      if (!entry || entry.members.has(trial)) continue;
      entry.members.set(trial, figures);
      if (!inRoom.has(figures.room)) inRoom.set(figures.room, new Set());
      inRoom.get(figures.room)!.add(entry);
      touched.add(entry);
    }
    return touched;
  }

  function leave(trial: string): Set<Entry> {
    const left = results.counted(trial).flatMap((figures) => entryOf(figures) ?? []);
    return new Set(left.filter(({ members }) => members.delete(trial)));
  }

  const countsNow = (trial: string) => ["listed", "questioned"].includes(states.get(trial)?.state ?? "");

  /** Another method version decides which figures count; the entries are pooled with them as it is applied. */
  function adopt(event: Event): void {
    for (const { members } of byId.values()) members.clear();
    results.adopt(event);
    for (const trial of states.keys()) if (countsNow(trial)) join(trial);
  }

  /** A result of the adopted version that came after its adoption counts at once. */
  function arrive(event: Event): Set<Entry> {
    const left = countsNow(event.subject) ? leave(event.subject) : new Set<Entry>();
    results.arrive(event);
    return countsNow(event.subject) ? left.union(join(event.subject)) : left;
  }

  /** From now on the figures of the next revision count. */
  function amend(trial: string): Set<Entry> {
    const left = countsNow(trial) ? leave(trial) : new Set<Entry>();
    results.amend(trial);
    return countsNow(trial) ? left.union(join(trial)) : left;
  }

  /** Those who counted in the entries of a merged configuration count in the entries of the other. */
  function merge(configuration: string): Set<Entry> {
    const touched = new Set<Entry>();
    for (const { from, to } of movesOf.get(configuration) ?? []) {
      moved.set(from, to);
      for (const place of places.get(from) ?? []) {
        const left = byId.get(place.id)!;
        if (left.members.size === 0) continue;
        const joined = byPlace.get(placeOf({ ...place, setting: to }))!;
        for (const [trial, figures] of left.members) {
          joined.members.set(trial, figures);
          inRoom.get(figures.room)!.add(joined);
        }
        left.members.clear();
        touched.add(left).add(joined);
      }
    }
    return touched;
  }

  function correct(room: string): Entry[] {
    corrections.set(room, (corrections.get(room) ?? 0) + 1);
    return [...(inRoom.get(room) ?? [])].filter(({ members }) => members.values().some((one) => one.room === room));
  }

  /** The entries up to an id that still stood with another spread: a batch of the job that applies it. */
  function apply(upTo: string): Entry[] {
    return [...byId.values()].filter(({ id, members, stood }) => {
      return id <= upTo && members.size > 0 && stood.get("all")?.spread !== spread.id;
    });
  }

  /** The entries up to an id that were last pooled under another method version, and have trials or had. */
  function applyMethod(upTo: string): Entry[] {
    return [...byId.values()].filter(({ id, members, stood }) => {
      const { methodVersion, trials } = stood.get("all") ?? { trials: 0 };
      return id <= upTo && (members.size > 0 || trials > 0) && methodVersion !== results.adopted().version;
    });
  }

  /** A listed trial is questioned until it is listed again; it counts as before. */
  function question({ subject, seq }: Event): void {
    if (states.get(subject)?.state === "listed") states.set(subject, { trial: subject, state: "questioned", seq });
  }

  function touchedBy(event: Event): Iterable<Entry> {
    if (event.kind === "trial-questioned") question(event);
    if (event.kind === "trial-amended") return amend(event.subject);
    if (event.kind === "trial-doubted") doubted.add(event.subject);
    const counts = COUNTS[event.kind];
    if (counts !== undefined)
      return count(event, counts && !(event.kind === "trial-stored" && doubted.has(event.subject)));
    if (event.kind === "configuration-merged") return merge(event.subject);
    if (event.kind === "room-corrected") return correct(event.subject);
    if (event.kind === "spread-applied") return apply(event.subject);
    if (event.kind === "method-adopted") adopt(event);
    if (event.kind === "method-applied") return event.reason === null ? applyMethod(event.subject) : arrive(event);
    if (event.kind === "spread-learnt") spread = history.spreads.find((row) => row.event === event.seq)!;
    return [];
  }

  for (const event of history.events) for (const entry of touchedBy(event)) await pool(entry, event.seq);
  return { states: [...states.values()], pooled };
}

function emptyEntry(id: string): Entry {
  return { id, members: new Map(), stood: new Map() };
}

function placeOf({ setting, band, invented }: { setting: number; band: string; invented: boolean }): string {
  return `${setting} ${band} ${invented}`;
}
