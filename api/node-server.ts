import type { AddressInfo } from "node:net";
import { serve } from "@hono/node-server";
import { createApp } from "./app.ts";
import type { Dependencies } from "./environment.ts";

/** Serves the application on Node. Port 0 takes any free one. */
export async function startNodeServer(it: {
  deps: Dependencies;
  port: number;
  host?: string;
}): Promise<{ url: string; close(): Promise<void> }> {
  const app = createApp(() => it.deps);
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
