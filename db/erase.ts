import { and, eq, isNull } from "drizzle-orm";
import type { Database } from "./database.ts";
import { words } from "./schema/identity.ts";
import { files, series } from "./schema/trials.ts";
import { erasureHash } from "./seal.ts";

/** What was erased for one subject: how many words, files and series. */
export interface Erased {
  readonly reason: string;
  readonly at: string;
}

/** Erases personal words for good, text and salt: what was published about them stays as a digest nobody can search. */
export async function eraseWords(db: Database, digests: readonly string[], { reason, at }: Erased): Promise<void> {
  await eachInOneBatch(db, digests, (connection, digest) =>
    connection
      .update(words)
      .set({ text: null, salt: null, ...erasure(digest, { reason, at }) })
      .where(and(eq(words.digest, digest), isNull(words.erasedAt))),
  );
}

/** Erases the bytes of an uploaded file; its hash and size stay. */
export async function eraseFiles(db: Database, hashes: readonly string[], { reason, at }: Erased): Promise<void> {
  await eachInOneBatch(db, hashes, (connection, sha256) =>
    connection
      .update(files)
      .set({ bytes: null, ...erasure(sha256, { reason, at }) })
      .where(and(eq(files.sha256, sha256), isNull(files.erasedAt))),
  );
}

/** Erases a parsed series; its hash stays, and its results can no longer be computed again. */
export async function eraseSeries(db: Database, hashes: readonly string[], { reason, at }: Erased): Promise<void> {
  await eachInOneBatch(db, hashes, (connection, sha256) =>
    connection
      .update(series)
      .set({ bytes: null, ...erasure(sha256, { reason, at }) })
      .where(and(eq(series.sha256, sha256), isNull(series.erasedAt))),
  );
}

function erasure(key: string, { reason, at }: Erased) {
  return { erasedAt: at, erasedReason: reason, erasedSha256: erasureHash(key, { reason, at }) };
}

type Connection = Database["read"];

async function eachInOneBatch(
  db: Database,
  keys: readonly string[],
  update: (connection: Connection, key: string) => Parameters<Connection["batch"]>[0][number],
): Promise<void> {
  await db.write(async (connection) => {
    const [first, ...rest] = keys.map((key) => update(connection, key));
    if (first) await connection.batch([first, ...rest]);
  });
}
