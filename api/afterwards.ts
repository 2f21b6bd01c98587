import type { Ctx } from "./environment.ts";

/**
 * Does something after the answer is given: in the Worker the platform waits for it, on Node it goes into one queue. What
 * fails is logged, for the answer has been given; it must be something that is done later all the same.
 */
export function afterwards(c: Ctx, job: () => Promise<unknown>): void {
  const guarded = () => job().catch((error: unknown) => console.error("afterwards:", error));
  const { later } = c.var.deps;
  if (later) later(guarded);
  else waitUntil(c)?.(guarded());
}

/** What the platform offers, undefined where there is none, as in tests. */
function waitUntil(c: Ctx): ((work: Promise<unknown>) => void) | undefined {
  try {
    const context = c.executionCtx;
    return (work) => context.waitUntil(work);
  } catch {
    return undefined; // hono throws where the platform gave no context
  }
}
