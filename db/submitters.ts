import { and, eq, isNull } from "drizzle-orm";
import type { Database } from "./database.ts";
import { keyRevocations, keys, submitters, words } from "./schema/identity.ts";
import { sealed } from "./seal.ts";
import type { NewWord } from "./words.ts";

export interface KeyHolder {
  readonly submitter: string;
  readonly prefix: string;
  readonly mac: Uint8Array;
  readonly revoked: boolean;
}

/** A new submitter with a first key, in one batch. */
export async function insertSubmitter(
  db: Database,
  it: { id: string; handle: NewWord | null; prefix: string; mac: Uint8Array; at: string },
): Promise<void> {
  const { id, handle, prefix, mac, at } = it;
  await db.write(async (connection) => {
    const submitter = connection
      .insert(submitters)
      .values(sealed(submitters, { id, handleDigest: handle?.digest ?? null, createdAt: at }));
    const key = connection.insert(keys).values(sealed(keys, { prefix, submitter: id, mac, createdAt: at }));
    await (handle
      ? connection.batch([connection.insert(words).values(sealed(words, handle)), submitter, key])
      : connection.batch([submitter, key]));
  });
}

/** Who holds the key with this prefix, null where nobody does. */
export async function findKey(db: Database, prefix: string): Promise<KeyHolder | null> {
  const [row] = await db.read
    .select({ submitter: keys.submitter, prefix: keys.prefix, mac: keys.mac, revokedAt: keyRevocations.at })
    .from(keys)
    .leftJoin(keyRevocations, eq(keyRevocations.prefix, keys.prefix))
    .where(eq(keys.prefix, prefix));
  return row ? { ...row, revoked: row.revokedAt !== null } : null;
}

/** Revokes a key for good; a second time changes nothing. */
export async function revokeKey(db: Database, prefix: string, at: string): Promise<void> {
  await db.write((connection) =>
    connection.insert(keyRevocations).values(sealed(keyRevocations, { prefix, at })).onConflictDoNothing(),
  );
}

/** The digest of a submitter's handle, null where none was given. */
export async function findHandleDigest(db: Database, submitter: string): Promise<string | null> {
  const [row] = await db.read
    .select({ digest: submitters.handleDigest })
    .from(submitters)
    .where(eq(submitters.id, submitter));
  return row?.digest ?? null;
}

/** How a submitter wishes to be called, null where no handle was given or it was erased. */
export async function findHandle(db: Database, submitter: string): Promise<string | null> {
  const [row] = await db.read
    .select({ text: words.text })
    .from(submitters)
    .innerJoin(words, and(eq(words.digest, submitters.handleDigest), isNull(words.erasedAt)))
    .where(eq(submitters.id, submitter));
  return row?.text ?? null;
}
