import type Database from "libsql";
import { HranaError } from "./hrana-error.ts";
import type { BatchStep, Condition, Statement, StreamRequest } from "./hrana-request.ts";
import { describeStatement, runSequence, runStatement } from "./run-statement.ts";
import type { Turnstile } from "./turnstile.ts";

/**
 * One client's conversation with the database. All streams share one connection: a stream passes the turnstile before its
 * first statement and holds it for as long as it has a transaction open, so a transaction never sees another's statements.
 * A transaction that pauses for `transactionTimeoutMs` is rolled back and its stream refuses everything afterwards;
 * otherwise the client's next statement would run, and stay, outside the transaction it believes in.
 */
export class HranaStream {
  readonly #db: InstanceType<typeof Database>;
  readonly #turnstile: Turnstile;
  readonly #transactionTimeoutMs: number;
  readonly #sqlById = new Map<number, string>();
  #leave: (() => void) | undefined;
  #timer: NodeJS.Timeout | undefined;
  #hasTimedOut = false;

  constructor(db: InstanceType<typeof Database>, turnstile: Turnstile, transactionTimeoutMs: number) {
    this.#db = db;
    this.#turnstile = turnstile;
    this.#transactionTimeoutMs = transactionTimeoutMs;
  }

  /** Answers the requests of one pipeline in order; one that fails does not keep the next from running. */
  async answer(requests: StreamRequest[]) {
    clearTimeout(this.#timer);
    const results = [];
    for (const request of requests) {
      try {
        results.push({ type: "ok", response: { type: request.type, ...(await this.#respond(request)) } });
      } catch (error) {
        if (!(error instanceof HranaError)) {
          this.close(); // a fault of this server: nobody else may wait for it
          throw error;
        }
        results.push({ type: "error", error: error.toWire() });
      }
    }
    if (this.#leave && this.#db.inTransaction) {
      this.#timer = setTimeout(() => this.#timeOut(), this.#transactionTimeoutMs);
    } else this.#release();
    return results;
  }

  /** Rolls back what is open and lets the next stream in. */
  close() {
    clearTimeout(this.#timer);
    if (this.#leave && this.#db.inTransaction) this.#db.exec("ROLLBACK");
    this.#release();
  }

  async #respond(request: StreamRequest): Promise<object> {
    switch (request.type) {
      case "store_sql":
        this.#sqlById.set(request.sql_id, request.sql);
        return {};
      case "close_sql":
        this.#sqlById.delete(request.sql_id);
        return {};
      case "close":
        this.close();
        return {};
      case "get_autocommit":
        return { is_autocommit: this.#isAutocommit() };
      case "execute":
        await this.#enter();
        return { result: this.#run(request.stmt) };
      case "batch":
        await this.#enter();
        return { result: this.#runBatch(request.batch.steps) };
      case "sequence":
        await this.#enter();
        runSequence(this.#db, this.#sqlOf(request));
        return {};
      case "describe":
        await this.#enter();
        return { result: describeStatement(this.#db, this.#sqlOf(request)) };
    }
  }

  #runBatch(steps: BatchStep[]) {
    const results: (object | null)[] = [];
    const errors: (object | null)[] = [];
    for (const { condition, stmt } of steps) {
      results.push(null);
      errors.push(null);
      if (condition && !this.#holds(condition, results, errors)) continue;
      try {
        results[results.length - 1] = this.#run(stmt);
      } catch (error) {
        if (!(error instanceof HranaError)) throw error;
        errors[errors.length - 1] = error.toWire();
      }
    }
    return { step_results: results, step_errors: errors };
  }

  #holds(condition: Condition, results: (object | null)[], errors: (object | null)[]): boolean {
    const holds = (inner: Condition) => this.#holds(inner, results, errors);
    if (condition.type === "ok") return Boolean(results[condition.step]);
    if (condition.type === "error") return Boolean(errors[condition.step]);
    if (condition.type === "not") return !holds(condition.cond);
    if (condition.type === "and") return condition.conds.every(holds);
    if (condition.type === "or") return condition.conds.some(holds);
    return this.#isAutocommit();
  }

  #run(stmt: Statement) {
    return runStatement(this.#db, this.#sqlOf(stmt), stmt);
  }

  #sqlOf({ sql, sql_id }: { sql?: string | null; sql_id?: number | null }) {
    const found = sql ?? (sql_id == null ? undefined : this.#sqlById.get(sql_id));
    if (found === undefined) throw new HranaError("SQL_NOT_FOUND", `SQL text ${sql_id} was not stored on this stream`);
    return found;
  }

  #isAutocommit() {
    return !(this.#leave && this.#db.inTransaction);
  }

  async #enter() {
    if (this.#hasTimedOut) throw new HranaError("TRANSACTION_TIMEOUT", "Transaction timed out");
    if (this.#leave) return;
    this.#leave = await this.#turnstile.enter();
    this.#db.exec("PRAGMA foreign_keys=ON"); // a connection setting: the stream before may have left it off
  }

  #timeOut() {
    this.#hasTimedOut = true;
    this.close();
  }

  #release() {
    this.#leave?.();
    this.#leave = undefined;
  }
}
