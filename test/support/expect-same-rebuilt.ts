import { createClient } from "@libsql/client";
import { expect } from "vitest";
import { rebuild } from "../../api/jobs/rebuild.ts";
import type { InProcess } from "./in-process.ts";
import { tableContents } from "./table-contents.ts";

/** That derived tables, thrown away, come out of a rebuild as they stood. */
export async function expectSameRebuilt({ databaseUrl, deps }: InProcess): Promise<void> {
  const client = createClient({ url: databaseUrl });
  const before = await tableContents(client);
  await client.executeMultiple("DELETE FROM standings; DELETE FROM pooled; DELETE FROM trial_states");
  await rebuild(deps.db);
  expect(await tableContents(client)).toEqual(before);
  client.close();
}
