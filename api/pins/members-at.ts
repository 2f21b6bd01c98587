import { canonicalJson, sha256Hex } from "../../db/content-hash.ts";
import { countedOf } from "../../db/counted-result.ts";
import type { Connection } from "../../db/database.ts";
import type { Basis, Entry, Pooled } from "../../db/entries.ts";
import { type EntryHistory, readEntryHistory } from "../../db/entry-history.ts";
import { latecomerReason } from "../../db/insert-reanalysis.ts";
import type { PinnedEntry } from "../wire/pinned.ts";

type Member = PinnedEntry["members"][number];

/**
 * The members of a pooled row, found again from what happened up to its event.
 * @throws Error where they do not hash to what the row holds: then something stored was changed
 */
export async function findMembersAt(connection: Connection, row: { entry: Entry; pooled: Pooled }): Promise<Member[]> {
  const { basis, seq, membersHash } = row.pooled;
  const members = membersAt(await readEntryHistory(connection, row.entry), basis, seq);
  const names = members.map((one) => `${one.trial}/${one.revision}/${one.method_version}/${one.room_revision}`);
  if ((await sha256Hex(canonicalJson(names))) !== membersHash) {
    throw new Error(`the members of ${row.entry.id} at event ${seq} are not those it was pooled from`);
  }
  return members;
}

/** Who counted in an entry on a basis right after an event, by id. */
export function membersAt(history: EntryHistory, basis: Basis, seq: number): Member[] {
  const until = history.events.filter((event) => event.seq <= seq);
  const happened = Map.groupBy(until, ({ subject }) => subject);
  const times = (subject: string, kind: string) =>
    happened.get(subject)?.filter((one) => one.kind === kind).length ?? 0;
  const moves = new Map(history.moves.filter((move) => move.seq <= seq).map(({ from, to }) => [from, to]));
  const adopted = history.adoptions.findLast(({ event }) => event === null || event <= seq)!.ordinal;
  // A result that came after its version was adopted counts from its own event on.
  const late = new Set(
    history.events.flatMap(({ kind, subject, reason, ...event }) =>
      kind === "method-applied" && event.seq > seq ? [`${subject}: ${reason}`] : [],
    ),
  );
  const figuresOf = Map.groupBy(history.figures, ({ trial, revision }) => `${trial}/${revision}`);
  const members = history.trials.flatMap(({ id, setting, room }): Member[] => {
    const kinds = (happened.get(id) ?? []).map(({ kind }) => kind);
    if (!counts(kinds) || movedTo(setting, moves) !== history.setting) return [];
    const revision = 1 + times(id, "trial-amended");
    const known = (figuresOf.get(`${id}/${revision}`) ?? []).filter(
      ({ methodVersion }) => !late.has(`${id}: ${latecomerReason(revision, methodVersion)}`),
    );
    const figures = countedOf(known, adopted);
    if (!figures || figures.paired === null) return [];
    if (basis.startsWith("independent") && figures.interest !== "independent") return [];
    if (basis.endsWith("paired") && !figures.paired) return [];
    const { methodVersion: method_version } = figures;
    return [{ trial: id, revision, method_version, room, room_revision: 1 + times(room, "room-corrected") }];
  });
  return members.sort((a, b) => (a.trial < b.trial ? -1 : 1));
}

/** Stored counts unless a rule doubted it; from then on the last decision holds. */
function counts(kinds: readonly EntryHistory["events"][number]["kind"][]): boolean {
  let now = false;
  let doubted = false;
  for (const kind of kinds) {
    if (kind === "trial-doubted") doubted = true;
    if (kind === "trial-stored") now = !doubted;
    if (kind === "trial-listed") now = true;
    if (kind === "trial-held" || kind === "trial-withdrawn") now = false;
  }
  return now;
}

function movedTo(setting: number, moves: ReadonlyMap<number, number>): number {
  let at = setting;
  for (let to = moves.get(at); to !== undefined; to = moves.get(at)) at = to;
  return at;
}
