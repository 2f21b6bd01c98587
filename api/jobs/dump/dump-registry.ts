import { METHOD_VERSION } from "../../../analysis/method-version.ts";
import { dump, type Source } from "../../../db/dump/dump.ts";
import { dictionary } from "./dictionary.ts";

/** Writes all that is stored into a new folder of `into`, with its dictionary and the method's changelog. */
export async function dumpRegistry(from: Source, into: string): Promise<string> {
  return dump(from, into, { methodVersion: METHOD_VERSION, readme: dictionary });
}
