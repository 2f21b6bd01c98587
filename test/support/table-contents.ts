import type { Client } from "@libsql/client";

/**
 * Every row of every table, sorted: two databases that hold the same have the same text. Pictures are left out: they are drawn
 * after an answer is given, at any time.
 */
export async function tableContents(client: Client): Promise<Record<string, string[]>> {
  const { rows: tables } = await client.execute(
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\' ORDER BY name",
  );
  const contents: Record<string, string[]> = {};
  for (const { name } of tables) {
    if (name === "pictures") continue;
    const { rows } = await client.execute(`SELECT * FROM "${name}"`);
    contents[String(name)] = rows.map((row) => JSON.stringify(row, bytesAsHex)).sort();
  }
  return contents;
}

function bytesAsHex(_: string, value: unknown): unknown {
  return value instanceof ArrayBuffer ? Buffer.from(value).toString("hex") : value;
}
