import type { Connection } from "../../db/database.ts";
import { readHistory } from "../../db/derived.ts";
import { listAllWords } from "../../db/traits.ts";
import { traitsOf } from "../configuration-traits.ts";
import { parseWords } from "../similar-configurations.ts";
import { replay } from "./replay.ts";

/** What derived tables must hold, worked out from what was stored: states, pooled figures and traits. */
export async function derive(connection: Connection) {
  const history = await readHistory(connection);
  const { states, pooled } = await replay(history);
  const words = await listAllWords(connection);
  const traits = await Promise.all(
    words.map(async ({ id, json }) => {
      return (await traitsOf(parseWords(json))).map((trait) => ({ trait, configuration: id }));
    }),
  );
  return { events: history.events.length, states, pooled, traits: traits.flat() };
}
