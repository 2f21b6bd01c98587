import { sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { Connection } from "./database.ts";
import { event, expectation, expectedRoomRevision, expectedUnmerged, newestSeqOf } from "./events.ts";
import { alikeCount, type Prints } from "./fingerprints.ts";
import { configurationRows, type NewConfiguration, type NewSetting } from "./insert-configuration.ts";
import { poolExpectations, poolRows, type Repooled } from "./insert-pooled.ts";
import { roomRevisions, rooms, words } from "./schema/identity.ts";
import { entries, trialStates } from "./schema/standings.ts";
import {
  files,
  fingerprints,
  resultBands,
  results,
  runs,
  series,
  trialMeasures,
  trialRevisions,
  trials,
} from "./schema/trials.ts";
import { sealed, sealedEntry } from "./seal.ts";
import type { NewWord } from "./words.ts";

type Row<T extends { $inferInsert: unknown }> = T["$inferInsert"];

export interface NewRoom {
  readonly room: Row<typeof rooms>;
  readonly revision: Row<typeof roomRevisions>;
}

/** Everything one stored trial adds, and what its writer read before. */
export interface TrialToStore {
  readonly at: string;
  readonly words: readonly NewWord[];
  readonly newConfiguration: NewConfiguration | null;
  readonly newSettings: readonly NewSetting[];
  readonly newRoom: NewRoom | null;
  readonly trial: Omit<Row<typeof trials>, "setting"> & { readonly settingFolded: string };
  readonly revision: Row<typeof trialRevisions>;
  readonly files: readonly Row<typeof files>[];
  readonly series: readonly Row<typeof series>[];
  readonly runs: readonly Row<typeof runs>[];
  readonly result: Row<typeof results>;
  readonly bands: readonly Row<typeof resultBands>[];
  readonly measures: Row<typeof trialMeasures>;
  readonly newEntries: readonly Omit<Row<typeof entries>, "setting">[];
  /** Why it waits for a person, as the log keeps it: with any reason it is pending and in no pool. */
  readonly doubts: readonly string[];
  readonly fingerprints: readonly Row<typeof fingerprints>[];
  /** How many readings were like its own when it was asked whose they are. */
  readonly readAlike: { readonly prints: Prints; readonly count: number };
  readonly pools: Repooled;
  /** The room's newest revision when it was read, where the room is not new. */
  readonly readRoom: { readonly room: string; readonly revision: number } | null;
}

/**
 * Stores a trial in one batch: all of it or nothing. The batch begins with a write, so it holds the write lock before it
 * compares; it fails with a constraint error where another writer changed what this one had read.
 */
export async function insertTrial(connection: Connection, it: TrialToStore): Promise<void> {
  const { settingFolded, ...trial } = it.trial;
  const setting = sql<number>`(SELECT id FROM settings WHERE configuration = ${trial.configuration} AND folded = ${settingFolded})`;
  const actor = trial.submitter;
  const [first, ...rest] = [
    // Doubts come first, so that whoever replays the log knows them before the trial is there to count.
    ...it.doubts.map((reason) =>
      event(connection, { at: it.at, kind: "trial-doubted", subject: trial.id, actor: "rule", reason }),
    ),
    event(connection, { at: it.at, kind: "trial-stored", subject: trial.id, actor }),
  ];
  const state = it.doubts.length > 0 ? "pending" : "listed";
  const add: BatchItem<"sqlite">[] = [
    ...poolExpectations(connection, it.pools),
    expectation(connection, expectedUnmerged(trial.configuration), "not merged"),
    ...roomExpectation(connection, it.readRoom),
    expectation(
      connection,
      sql`${alikeCount(it.readAlike.prints)} = ${it.readAlike.count}`,
      "readings of nobody since",
    ),
    ...it.words.map((word) => connection.insert(words).values(sealed(words, word))),
  ];
  add.push(
    ...configurationRows(connection, {
      created: it.newConfiguration,
      newSettings: it.newSettings,
      submitter: actor,
      at: it.at,
    }),
  );
  if (it.newRoom) {
    add.push(
      event(connection, { at: it.at, kind: "room-stored", subject: it.newRoom.room.id, actor }),
      connection.insert(rooms).values(sealed(rooms, it.newRoom.room)),
      connection.insert(roomRevisions).values(sealed(roomRevisions, it.newRoom.revision)),
    );
  }
  add.push(
    ...it.files.map((row) => connection.insert(files).values(sealed(files, row)).onConflictDoNothing()),
    ...it.series.map((row) => connection.insert(series).values(sealed(series, row)).onConflictDoNothing()),
    connection.insert(trials).values({ ...sealed(trials, { ...trial, setting: 0 }), setting }),
    connection.insert(trialRevisions).values(sealed(trialRevisions, it.revision)),
    ...it.runs.map((row) => connection.insert(runs).values(sealed(runs, row))),
    ...it.fingerprints.map((row) => connection.insert(fingerprints).values(sealed(fingerprints, row))),
    connection.insert(results).values(sealed(results, it.result)),
    ...it.bands.map((row) => connection.insert(resultBands).values(sealed(resultBands, row))),
    connection.insert(trialMeasures).values(sealed(trialMeasures, it.measures)),
    ...it.newEntries.map((row) =>
      connection
        .insert(entries)
        .values({ ...sealedEntry(row, { configuration: trial.configuration, folded: settingFolded }), setting }),
    ),
    connection.insert(trialStates).values({ trial: trial.id, state, seq: newestSeqOf(trial.id) }),
    ...poolRows(connection, it.pools, newestSeqOf(trial.id)),
  );
  await connection.batch([first!, ...rest, ...add]);
}

function roomExpectation(connection: Connection, read: TrialToStore["readRoom"]): BatchItem<"sqlite">[] {
  if (!read) return [];
  const { room, revision } = read;
  return [expectation(connection, expectedRoomRevision(room, revision), `room ${room}`)];
}
