import { MODELLED_KINDS } from "./modelled-kinds.ts";
import type { Kind } from "./occasion.ts";
import { UNMODELLED_KINDS } from "./unmodelled-kinds.ts";

/** Every kind of trial the campaign knows; over a third of them break the estimator's model. */
export const KINDS: readonly Kind[] = [...MODELLED_KINDS, ...UNMODELLED_KINDS];

/** Kinds by name, in the campaign's order. @throws RangeError for a name it does not know */
export function kindsNamed(names: readonly string[]): Kind[] {
  const unknown = names.filter((name) => !KINDS.some((kind) => kind.name === name));
  if (unknown.length > 0)
    throw new RangeError(`no kind ${unknown.join(", ")}; there are ${KINDS.map((k) => k.name).join(", ")}`);
  return KINDS.filter(({ name }) => names.length === 0 || names.includes(name));
}
