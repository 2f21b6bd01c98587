import { startNodeServer } from "../api/node-server.ts";
import { makeFolderOf, openNode, readSettings } from "../api/node-settings.ts";
import { prepareDemoDatabase } from "./demo-database.ts";
import { holdPort } from "./hold-port.ts";
import { thingsToTry } from "./things-to-try.ts";

/* `npm start`: fills the demo's own database where it is still empty, serves it, and says what to try. */
try {
  const settings = readSettings(process.env, "file:.data/demo.db");
  const release = await holdPort(settings.port, settings.host);
  makeFolderOf(settings.libsqlUrl);
  await prepareDemoDatabase(settings, (line) => console.log(line));
  await release();

  const deps = await openNode(settings);
  const server = await startNodeServer({ deps, port: settings.port, host: settings.host });
  const things = await thingsToTry((path) => fetch(server.url + path), server.url);
  console.log(
    [`The demo is at ${server.url}/ (everything in it is invented). Try:`, ...things, "Stop it with Ctrl-C."].join(
      "\n",
    ),
  );

  for (const signal of ["SIGTERM", "SIGINT"] as const) {
    process.once(signal, async () => {
      await server.close();
      deps.db.close();
      process.exit(0);
    });
  }
} catch (error) {
  console.error(plainWords(error));
  process.exit(1);
}

/** Refusals are said in a sentence; anything else is a bug and keeps its stack. */
function plainWords(error: unknown): unknown {
  if (error instanceof RangeError) return error.message;
  if (!(error instanceof Error) || !("code" in error) || error.code !== "EADDRINUSE") return error;
  const port = "port" in error ? error.port : "";
  return `Port ${port} is taken: stop what listens there, or choose another as in PORT=8788 npm start.`;
}
