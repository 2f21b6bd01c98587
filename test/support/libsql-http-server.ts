import { mkdirSync } from "node:fs";
import { createServer, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { dirname } from "node:path";
import Database from "libsql";
import { HranaError } from "./libsql-http/hrana-error.ts";
import { pipelineRequest } from "./libsql-http/hrana-request.ts";
import { HranaStream } from "./libsql-http/hrana-stream.ts";
import { Turnstile } from "./libsql-http/turnstile.ts";

export type LibsqlHttpServer = { url: string; close(): Promise<void> };

export type LibsqlHttpServerOptions = {
  /** A file, made when absent, or `:memory:`. */
  path: string;
  /** 0 lets the system choose. */
  port?: number;
  authToken?: string;
  /** How long an open transaction may pause before it is rolled back. 5 s is what the public libSQL server allows. */
  transactionTimeoutMs?: number;
  /** How long a stream may pause before its baton expires. 10 s is what the public libSQL server allows. */
  streamTimeoutMs?: number;
};

/**
 * A libSQL database over HTTP on 127.0.0.1: the JSON encoding of Hrana 2 (`POST /v2/pipeline`) in front of the embedded
 * engine, so that the Worker can be tested offline. `GET /v2` says that it is spoken; any other version answers 404, which
 * makes a client fall back to it.
 */
export async function startLibsqlHttpServer(options: LibsqlHttpServerOptions): Promise<LibsqlHttpServer> {
  const { path, port = 0, authToken, transactionTimeoutMs = 5_000, streamTimeoutMs = 10_000 } = options;
  if (path !== ":memory:") mkdirSync(dirname(path), { recursive: true });
  const db = new Database(path, { timeout: 5_000 });
  if (path !== ":memory:") db.exec("PRAGMA journal_mode=WAL");
  const turnstile = new Turnstile();
  const waiting = new Map<string, { stream: HranaStream; timer: NodeJS.Timeout }>();

  /** A baton is good for one request: it names the stream that waits for its client. */
  function take(baton: string | null | undefined) {
    if (!baton) return new HranaStream(db, turnstile, transactionTimeoutMs);
    const held = waiting.get(baton);
    if (!held) throw new HranaError("STREAM_EXPIRED", "The stream has expired due to inactivity");
    waiting.delete(baton);
    clearTimeout(held.timer);
    return held.stream;
  }

  function keep(stream: HranaStream) {
    const baton = crypto.randomUUID();
    const expire = () => {
      waiting.delete(baton);
      stream.close();
    };
    waiting.set(baton, { stream, timer: setTimeout(expire, streamTimeoutMs) });
    return baton;
  }

  async function answer(request: IncomingMessage): Promise<{ status: number; body: object }> {
    if (authToken !== undefined && request.headers.authorization !== `Bearer ${authToken}`) {
      return { status: 401, body: { message: "Authentication failed", code: "AUTH_REJECTED" } };
    }
    if (request.method === "GET" && request.url === "/v2") return { status: 200, body: {} };
    if (request.method !== "POST" || request.url !== "/v2/pipeline") {
      return { status: 404, body: { message: "Not found", code: "NOT_FOUND" } };
    }
    const { baton, requests } = pipelineRequest.parse(JSON.parse(await readText(request)));
    const stream = take(baton);
    const results = await stream.answer(requests);
    const isClosed = requests.some(({ type }) => type === "close");
    return { status: 200, body: { baton: isClosed ? null : keep(stream), base_url: null, results } };
  }

  const server = createServer((request, response) => {
    answer(request)
      .catch((error: unknown) => {
        const message = error instanceof Error ? error.message : String(error);
        return { status: 400, body: { message, code: error instanceof HranaError ? error.code : "PROTOCOL_ERROR" } };
      })
      .then(({ status, body }) => {
        response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(body));
      });
  });
  await new Promise<void>((resolve, reject) => server.once("error", reject).listen(port, "127.0.0.1", resolve));

  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    async close() {
      for (const { stream, timer } of waiting.values()) {
        clearTimeout(timer);
        stream.close();
      }
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      db.close();
    },
  };
}

async function readText(request: IncomingMessage) {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk);
  return Buffer.concat(chunks).toString("utf8");
}
