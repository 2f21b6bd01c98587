import { COOP_PLANS } from "./coop-plans.ts";
import { LOFT_AND_ATTIC_PLANS } from "./loft-and-attic-plans.ts";
import { POTTERY_PLANS } from "./pottery-plans.ts";
import { PRESS_PLANS } from "./press-plans.ts";
import type { TrialPlan } from "./trial-plan.ts";

/** The trials of the scenario in the order they are sent; a trial whose natural run is shared stands before its users. */
export const TRIAL_PLANS: readonly TrialPlan[] = [
  ...POTTERY_PLANS,
  ...PRESS_PLANS,
  ...LOFT_AND_ATTIC_PLANS,
  ...COOP_PLANS,
];
