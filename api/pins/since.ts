import { type MethodChange, methodChangesBetween } from "../../analysis/method-changes.ts";
import type { Database } from "../../db/database.ts";
import { findMovedEntry } from "../../db/entries.ts";
import { listRoomCorrections } from "../../db/room-corrections.ts";
import { findTrial } from "../../db/trials.ts";
import type { PinnedEntry, PinnedResult, PinnedTrial } from "../wire/pinned.ts";
import { currentPinOfEntry, currentPinOfTrial } from "./current-pin.ts";
import { readPin } from "./read-pin.ts";

/** What became of a pinned result. */
export interface Since {
  /** What stands in its place now: null where nothing does, or where it stands itself. */
  readonly now: PinnedResult | null;
  /** Whether it is what the current record says. */
  readonly isCurrent: boolean;
  /** What happened meanwhile, a phrase each. */
  readonly why: readonly string[];
  /** What the method changed since, where what stands now is by a newer version. */
  readonly methodChanges: readonly MethodChange[];
}

/** Compares a pinned result with the record as it is now. */
export async function sincePinned(db: Database, publicUrl: string, result: PinnedResult): Promise<Since> {
  const { pinned } = result;
  const since =
    pinned.kind === "trial"
      ? await sinceTrial(db, publicUrl, pinned)
      : await sinceEntry(db, publicUrl, pinned, result.withdrawn_members.length);
  const newest = since.now?.pinned.method_version ?? pinned.method_version;
  return { ...since, methodChanges: methodChangesBetween(pinned.method_version, newest) };
}

type Became = Omit<Since, "methodChanges">;

async function sinceTrial(db: Database, publicUrl: string, pinned: PinnedTrial): Promise<Became> {
  const [{ state }, pin, corrections] = await Promise.all([
    findTrial(db.read, pinned.trial),
    currentPinOfTrial(db.read, pinned.trial, pinned.band),
    listRoomCorrections(db.read, [pinned.room.id]),
  ]);
  const isCurrent = pin?.revision === pinned.revision && pin.methodVersion === pinned.method_version;
  const now = pin && !isCurrent ? await readPin(db, publicUrl, pin) : null;
  const corrected = corrections.get(pinned.room.id);
  const why = [
    pin === null && "in its newest form it gives no rate of these particles",
    pin && pin.revision > pinned.revision && `it was amended: revision ${pin.revision}`,
    pin && pin.methodVersion !== pinned.method_version && `method ${pin.methodVersion} reads the same readings`,
    corrected &&
      corrected.revision > pinned.room.revision &&
      `the volume of its room was corrected on ${day(corrected.at)}, which pooled figures take up${corrected.reason === null ? "" : `: ${corrected.reason}`}`,
    state === "pending" && "it waits for a person to check it and does not count",
    state === "questioned" && "it was questioned",
  ];
  return { now, isCurrent, why: why.filter((each) => typeof each === "string") };
}

async function sinceEntry(db: Database, publicUrl: string, pinned: PinnedEntry, withdrawn: number): Promise<Became> {
  const moved = await findMovedEntry(db.read, pinned.entry);
  const pin = await currentPinOfEntry(db.read, moved ?? pinned.entry, pinned.basis);
  const found = pin && (await readPin(db, publicUrl, pin));
  if (found?.pinned.path === pinned.path) return { now: null, isCurrent: true, why: [] };
  const now = found?.pinned.kind === "entry" ? found.pinned : null;
  const then = new Map(pinned.members.map((member) => [member.trial, member]));
  const members = now?.members ?? [];
  const kept = members.flatMap((member) => {
    const before = then.get(member.trial);
    return before ? [{ before, member }] : [];
  });
  const added = members.length - kept.length;
  const gone = pinned.members.length - kept.length - withdrawn;
  const amended = kept.filter(({ before, member }) => before.revision !== member.revision).length;
  const reread = kept.filter(({ before, member }) => before.method_version !== member.method_version).length;
  const rooms = new Set(
    kept.flatMap(({ before, member }) => (before.room_revision < member.room_revision ? [member.room] : [])),
  ).size;
  const why = [
    moved !== null && "the cleaner was found to be the same as another, and their tests are pooled",
    now === null && "no test of it counts any more",
    now !== null && withdrawn > 0 && `${tests(withdrawn)} of these ${withdrawn === 1 ? "was" : "were"} withdrawn`,
    added > 0 && `${tests(added)} more ${added === 1 ? "counts" : "count"}`,
    now !== null && gone > 0 && `${tests(gone)} of these ${gone === 1 ? "counts" : "count"} no more`,
    amended > 0 && `${tests(amended)} ${amended === 1 ? "was" : "were"} amended`,
    reread > 0 && `${tests(reread)} ${reread === 1 ? "is" : "are"} read by a newer method`,
    rooms > 0 && `the volume of ${rooms === 1 ? "a room" : `${rooms} rooms`} was corrected`,
    now !== null &&
      now.spread.relative !== pinned.spread.relative &&
      "how far laboratories differ was learnt from more cleaners",
  ].filter((each) => typeof each === "string");
  return { now: why.length > 0 ? found : null, isCurrent: why.length === 0, why };
}

function day(at: string): string {
  return at.slice(0, 10);
}

function tests(count: number): string {
  return `${count}\u00a0test${count === 1 ? "" : "s"}`;
}
