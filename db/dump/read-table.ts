import { createReadStream } from "node:fs";
import { createInterface } from "node:readline";
import { createGunzip } from "node:zlib";
import type { InValue } from "@libsql/client";

/** The rows of a gzipped NDJSON file that writeTable wrote. */
export async function* readTable(path: string): AsyncGenerator<Record<string, InValue>> {
  const lines = createInterface({ input: createReadStream(path).pipe(createGunzip()), crlfDelay: Infinity });
  for await (const line of lines) {
    const row = JSON.parse(line) as Record<string, unknown>;
    yield Object.fromEntries(Object.entries(row).map(([column, value]) => [column, asStored(value)]));
  }
}

function asStored(value: unknown): InValue {
  if (typeof value === "object" && value !== null && "base64" in value) {
    return new Uint8Array(Buffer.from(String(value.base64), "base64"));
  }
  return value as string | number | null;
}
