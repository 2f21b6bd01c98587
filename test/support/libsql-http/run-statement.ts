import type Database from "libsql";
import { HranaError, hranaErrorOf } from "./hrana-error.ts";
import type { Statement, WireValue } from "./hrana-request.ts";
import { readSqlTokens } from "./sql-tokens.ts";

type Connection = InstanceType<typeof Database>;

/** Runs one statement and words its result for the wire. @throws HranaError */
export function runStatement(db: Connection, sql: string, stmt: Statement) {
  const { verb, parameters, hasTail } = readSqlTokens(sql);
  if (verb === undefined) throw new HranaError("SQL_NO_STATEMENT", "SQL string does not contain any statement");
  if (hasTail) throw new HranaError("SQL_MANY_STATEMENTS", "SQL string contains more than one statement");
  const prepared = prepare(db, sql);
  const args = readArguments(stmt, parameters.length);
  const changesBefore = readInteger(db, "SELECT total_changes()");
  try {
    const cols = readColumns(prepared);
    const rows: unknown[][] = [];
    if (cols.length > 0) rows.push(...(prepared.raw(true).all(args) as unknown[][]));
    else prepared.run(args);
    // changes() keeps the count of the last write, so a SELECT must not report it.
    const hasChanged = readInteger(db, "SELECT total_changes()") !== changesBefore;
    return {
      cols,
      rows: stmt.want_rows === false ? [] : rows.map((row) => row.map(toWire)),
      affected_row_count: hasChanged ? Number(readInteger(db, "SELECT changes()")) : 0,
      last_insert_rowid: hasChanged ? String(readInteger(db, "SELECT last_insert_rowid()")) : null,
    };
  } catch (error) {
    throw hranaErrorOf(error, "run");
  }
}

/**
 * Parameters and columns of a statement without running it. Whether it only reads is judged by its verb: the engine does
 * not tell, and an EXPLAIN of a write keeps this engine from ever committing again ("SQL statements in progress").
 */
export function describeStatement(db: Connection, sql: string) {
  const { verb, parameters } = readSqlTokens(sql);
  return {
    params: parameters.map((name) => ({ name: name ?? null })),
    cols: readColumns(prepare(db, sql)),
    is_explain: verb === "explain",
    is_readonly: verb === "select" || verb === "values" || verb === "explain",
  };
}

/** Several statements in one text, results dropped; stops at the first that fails. */
export function runSequence(db: Connection, sql: string) {
  try {
    db.exec(sql);
  } catch (error) {
    throw hranaErrorOf(error, "run");
  }
}

function prepare(db: Connection, sql: string) {
  try {
    return db.prepare(sql).safeIntegers(true);
  } catch (error) {
    throw hranaErrorOf(error, "prepare");
  }
}

function readColumns(prepared: ReturnType<typeof prepare>) {
  return prepared.columns().map(({ name, type }) => ({ name, decltype: type }));
}

function readArguments(stmt: Statement, parameterCount: number) {
  const positional = stmt.args ?? [];
  const named = stmt.named_args ?? [];
  if (positional.length > 0 && named.length > 0) {
    const message = "Specifying both positional and named arguments is not supported";
    throw new HranaError("ARGS_BOTH_POSITIONAL_AND_NAMED", message);
  }
  if (named.length > 0) {
    return Object.fromEntries(named.map(({ name, value }) => [name.replace(/^[:@$]/, ""), fromWire(value)]));
  }
  if (positional.length < parameterCount) {
    const message = `Arguments do not match SQL parameters: value for parameter ${positional.length + 1} not found`;
    throw new HranaError("ARGS_INVALID", message);
  }
  return positional.map(fromWire);
}

/** The engine stores a bigint as INTEGER and a number as REAL, so the wire's types survive exactly. */
function fromWire(value: WireValue) {
  if (value.type === "null") return null;
  if (value.type === "integer") return BigInt(value.value);
  if (value.type === "blob") return Buffer.from(value.base64, "base64");
  return value.value;
}

function toWire(value: unknown): WireValue {
  if (value === null) return { type: "null" };
  if (typeof value === "bigint") return { type: "integer", value: String(value) };
  if (typeof value === "number") return { type: "float", value };
  if (typeof value === "string") return { type: "text", value };
  if (value instanceof Uint8Array) return { type: "blob", base64: Buffer.from(value).toString("base64") };
  throw new Error(`the engine returned a ${typeof value}`);
}

function readInteger(db: Connection, sql: string) {
  return (db.prepare(sql).safeIntegers(true).raw(true).all([]) as bigint[][])[0]![0]!;
}
