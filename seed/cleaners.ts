import { BOUGHT_CLEANERS } from "./bought-cleaners.ts";
import { BUILT_CLEANERS } from "./built-cleaners.ts";
import type { DemoCleaner } from "./demo-cleaner.ts";

/** Every configuration of the scenario; one that derives from another stands after it. */
export const CLEANERS: readonly DemoCleaner[] = [...BUILT_CLEANERS, ...BOUGHT_CLEANERS];

export function findCleaner(key: string): DemoCleaner {
  const found = CLEANERS.find((cleaner) => cleaner.key === key);
  if (!found) throw new RangeError(`no cleaner is called ${key}`);
  return found;
}
