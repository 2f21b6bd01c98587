import { inArray } from "drizzle-orm";
import { sha256Hex } from "./content-hash.ts";
import type { Database } from "./database.ts";
import { words } from "./schema/identity.ts";

export interface NewWord {
  readonly digest: string;
  readonly salt: Uint8Array;
  readonly text: string;
}

/** A personal word and the digest SHA-256(salt ‖ text) that stands for it in hashed records. */
export async function makeWord(text: string, salt: Uint8Array): Promise<NewWord> {
  const encoded = new TextEncoder().encode(text);
  const whole = new Uint8Array(salt.length + encoded.length);
  whole.set(salt);
  whole.set(encoded, salt.length);
  return { digest: await sha256Hex(whole), salt, text };
}

/** The words behind digests; an erased one is missing. */
export async function listWords(db: Database, digests: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const found = new Map<string, string>();
  for (let at = 0; at < digests.length; at += 100) {
    const rows = await db.read
      .select({ digest: words.digest, text: words.text })
      .from(words)
      .where(inArray(words.digest, digests.slice(at, at + 100)));
    for (const { digest, text } of rows) if (text !== null) found.set(digest, text);
  }
  return found;
}
