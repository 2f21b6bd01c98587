import { insertSubmitter } from "../db/submitters.ts";
import { makeWord } from "../db/words.ts";
import type { Dependencies } from "./environment.ts";
import { makeId } from "./public-id.ts";
import { makeKey } from "./submitter-key.ts";

/** Makes a submitter with a first key. The key's text is in no other place than the answer. */
export async function createKey({ db, random, secret, now }: Dependencies, handle: string | null) {
  const { prefix, text } = makeKey(random);
  const id = makeId("submitter", random);
  const word = handle === null ? null : await makeWord(handle, random(16));
  const mac = await secret.mac("key", text);
  await insertSubmitter(db, { id, handle: word, prefix, mac, at: now().toISOString() });
  return { text, prefix, submitter: { id, handle } };
}
