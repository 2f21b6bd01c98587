import type { AddressInfo } from "node:net";
import { serve } from "@hono/node-server";
import { Hono } from "hono";
import { compress } from "hono/compress";
import { createApp } from "./app.ts";
import type { Dependencies } from "./environment.ts";

/** Serves the application on Node, compressed, as the Worker's platform does by itself. Port 0 takes any free one. */
export async function startNodeServer(it: {
  deps: Dependencies;
  port: number;
  host?: string;
}): Promise<{ url: string; close(): Promise<void> }> {
  const inner = createApp(() => it.deps);
  const app = new Hono().use(compress()).all("*", (c) => inner.fetch(c.req.raw));
  const hostname = it.host ?? "127.0.0.1";
  return new Promise((resolve, reject) => {
    const server = serve({ fetch: app.fetch, port: it.port, hostname }, (info: AddressInfo) => {
      resolve({
        url: `http://${hostname.includes(":") ? `[${hostname}]` : hostname}:${info.port}`,
        close: () => new Promise((done) => server.close(() => done())),
      });
    });
    server.once("error", reject);
  });
}
