import type { Connection } from "../../db/database.ts";
import { findMovedEntry } from "../../db/entries.ts";
import type { PinnedResult } from "../wire/pinned.ts";

/** The Link header of a pinned answer: the record as it is now and its revisions (RFC 5829), its page, and the licence (RFC 4946). */
export async function linksOfPin(
  connection: Connection,
  publicUrl: string,
  { pinned, page }: PinnedResult,
): Promise<string> {
  const record =
    pinned.kind === "trial"
      ? `trials/${pinned.trial}`
      : `entries/${(await findMovedEntry(connection, pinned.entry)) ?? pinned.entry}`;
  return [
    `<${publicUrl}/v1/${record}>; rel="latest-version"`,
    ...(pinned.kind === "trial" ? [`<${publicUrl}/v1/${record}/revisions>; rel="version-history"`] : []),
    `<${page}>; rel="alternate"; type="text/html"`,
    '<https://creativecommons.org/publicdomain/zero/1.0/>; rel="license"',
  ].join(", ");
}
