import type { Client, InValue, Value } from "@libsql/client";
import type { createRandom } from "../../analysis/simulate/random.ts";

type Random = ReturnType<typeof createRandom>;

/** A stored value with one byte changed, and how to put it back. */
export interface Damaged {
  readonly table: string;
  readonly column: string;
  readonly was: Value;
  readonly is: InValue;
  undo(): Promise<void>;
}

/** Every table that holds rows; what SQLite keeps for itself and migrations are among them. */
async function tablesOf(client: Client): Promise<string[]> {
  const { rows } = await client.execute(
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name <> 'sqlite_stat1'",
  );
  const counted = await Promise.all(
    rows.map(async ({ name }) => {
      const { rows: count } = await client.execute(`SELECT 1 FROM "${name}" LIMIT 1`);
      return count.length > 0 ? [String(name)] : [];
    }),
  );
  return counted.flat();
}

/** Takes away the triggers that would refuse every change below. */
export async function disarm(client: Client): Promise<void> {
  const { rows } = await client.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'");
  for (const { name } of rows) await client.execute(`DROP TRIGGER "${name}"`);
}

/** Changes one byte of one value by chance, whatever table, row and column; null where what was drawn is empty. */
export async function damageOne(client: Client, random: Random): Promise<Damaged | null> {
  const oneOf = <T>(all: readonly T[]): T => all[Math.floor(all.length * random.uniform())]!;
  const table = oneOf(await tablesOf(client));
  const { rows: columns } = await client.execute(`PRAGMA table_info("${table}")`);
  const column = String(oneOf(columns).name);
  const { rows: ids } = await client.execute(`SELECT rowid AS id FROM "${table}"`);
  const id = oneOf(ids).id!;
  const { rows } = await client.execute({
    sql: `SELECT "${column}" AS value FROM "${table}" WHERE rowid = ?`,
    args: [id],
  });
  const was = rows[0]!.value!;
  const is = changed(was, random);
  if (is === null) return null;
  const put = async (value: InValue, at: InValue) => {
    const sql = `UPDATE OR IGNORE "${table}" SET "${column}" = ? WHERE rowid = ?`;
    // As a failing disk would: no key, no check is minded, but for two rows of one name, which cannot be written.
    await client.migrate(["PRAGMA ignore_check_constraints = ON", { sql, args: [value, at] }]);
  };
  await put(is, id);
  if (await isThere(client, table, column, was, id)) return null; // another row has that name
  const moved = await client.execute({ sql: `SELECT count(*) AS n FROM "${table}" WHERE rowid = ?`, args: [id] });
  const now = moved.rows[0]!.n === 0 ? is : id; // a changed INTEGER PRIMARY KEY is the row's id
  return { table, column, was, is, undo: () => put(was, now) };
}

async function isThere(client: Client, table: string, column: string, value: Value, rowid: Value): Promise<boolean> {
  const sql = `SELECT 1 FROM "${table}" WHERE rowid = ? AND "${column}" IS ?`;
  return (await client.execute({ sql, args: [rowid, value] })).rows.length > 0;
}

function changed(value: Value, random: Random): InValue | null {
  const at = (length: number) => Math.floor(length * random.uniform());
  if (value instanceof ArrayBuffer) {
    if (value.byteLength === 0) return null;
    const bytes = new Uint8Array(value.slice(0));
    bytes[at(bytes.length)]! ^= 1 + at(255);
    return bytes;
  }
  if (typeof value === "string") {
    if (value === "") return null;
    const letters = [...value];
    const i = at(letters.length);
    const other = String.fromCharCode(33 + at(94));
    letters[i] = other === letters[i] ? (other === "x" ? "y" : "x") : other;
    return letters.join("");
  }
  if (typeof value === "number") return Number.isInteger(value) ? value + 1 + at(200) : flipped(value, at(52));
  return null;
}

/** A double with one bit of its mantissa turned. */
function flipped(value: number, bit: number): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  view.setBigUint64(0, view.getBigUint64(0) ^ (1n << BigInt(bit)));
  return view.getFloat64(0);
}
