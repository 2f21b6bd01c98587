import { checkCharacter, fold, isCrockford, randomCharacters } from "./crockford.ts";
import type { Random } from "./public-id.ts";

/**
 * A submitter key: mote_PPPPPPPP_SSSS…S C. The prefix names the row, 26 secret characters are 130 random bits, and a
 * check character tells a mistyped key from a wrong one without asking the database.
 */
export interface SubmitterKey {
  readonly prefix: string;
  readonly text: string;
}

const PREFIX_LENGTH = 8;
const SECRET_LENGTH = 26;
const FORM = new RegExp(`^MOTE_([^_]{${PREFIX_LENGTH}})_([^_]{${SECRET_LENGTH + 1}})$`);

export function makeKey(random: Random): SubmitterKey {
  const prefix = randomCharacters(random(PREFIX_LENGTH));
  const secret = randomCharacters(random(SECRET_LENGTH));
  return { prefix, text: `mote_${prefix}_${secret}${checkCharacter(prefix + secret)}` };
}

/** The key in a bearer token, null where it cannot be one. */
export function parseKey(token: string): SubmitterKey | null {
  // The scheme's own O is not a zero, so it is set aside before folding.
  const match = FORM.exec(`MOTE_${fold(token.trim()).replace(/^M0TE_/, "")}`);
  if (!match) return null;
  const [, prefix = "", rest = ""] = match;
  if (!isCrockford(prefix + rest)) return null;
  const secret = rest.slice(0, SECRET_LENGTH);
  if (checkCharacter(prefix + secret) !== rest[SECRET_LENGTH]) return null;
  return { prefix, text: `mote_${prefix}_${rest}` };
}
