import type { Context } from "hono";
import type { Method } from "../analysis/method.ts";
import type { Database } from "../db/database.ts";
import type { Dumps } from "./dumps.ts";
import type { Renderer } from "./pictures/renderer.ts";
import type { Random } from "./public-id.ts";
import type { Secret } from "./secret.ts";

/** What the application is given: everything that differs between a test, a Node server and the Worker. */
export interface Dependencies {
  readonly db: Database;
  readonly now: () => Date;
  readonly random: Random;
  readonly secret: Secret;
  /** Key of the operator, null where there is none. */
  readonly operatorKey: string | null;
  /** Where the registry is reached from outside, without a trailing slash. */
  readonly publicUrl: string;
  /** The script of the page where a test is added, null where none was built: the page works without. */
  readonly submitScript: string | null;
  /** Where what comes after an answer is done, one thing at a time; left out where the platform has its own way, or none. */
  readonly later?: (job: () => Promise<unknown>) => void;
  /** Draws PNG of SVG. */
  readonly render: Renderer;
  /** The version of the method that analyses; that of this code where left out. */
  readonly method?: Method;
  /** Open data that is given away. */
  readonly dumps: Dumps;
}

/** Gives a request its dependencies: on Node always the same, in the Worker a database client of the request's own. */
export type Provide = (bindings: unknown) => Dependencies | Promise<Dependencies>;

export type Env = { Variables: { deps: Dependencies } };
export type Ctx = Context<Env>;
export type Handler = (c: Ctx) => Response | Promise<Response>;
