import type { Channel } from "../../../analysis/trial.ts";
import { unitWords } from "../figures.ts";

/** A channel's name, with its unit where the name does not hold one already. */
export function channelWords({ id, unit }: Pick<Channel, "id" | "unit">): string {
  return /[([]/.test(id) ? id : `${id} (${unitWords(unit)})`;
}
