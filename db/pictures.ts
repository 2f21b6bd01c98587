import { and, eq } from "drizzle-orm";
import { sha256Hex } from "./content-hash.ts";
import type { Database } from "./database.ts";
import { pictures } from "./schema/keeping.ts";
import { sealed } from "./seal.ts";

type Kind = (typeof pictures.$inferSelect)["kind"];

/** The picture of a pinned result, null where none was drawn yet. */
export async function findPicture(db: Database, pin: string, kind: Kind): Promise<Uint8Array | null> {
  const [row] = await db.read
    .select({ png: pictures.png })
    .from(pictures)
    .where(and(eq(pictures.pin, pin), eq(pictures.kind, kind)));
  return row?.png ?? null;
}

/** Keeps a picture; where another writer drew it meanwhile, that one stays. */
export async function insertPicture(
  db: Database,
  it: { pin: string; kind: Kind; png: Uint8Array; at: string },
): Promise<void> {
  const row = sealed(pictures, { ...it, sha256: await sha256Hex(it.png) });
  await db.write((connection) => connection.insert(pictures).values(row).onConflictDoNothing());
}
