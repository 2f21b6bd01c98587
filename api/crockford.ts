/** Crockford's base 32: no I, L, O or U, so that an id read aloud or copied by hand survives. */
export const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** Upper case, O read as 0, I and L as 1: the misreadings the alphabet is made to forgive. */
export function fold(text: string): string {
  return text.toUpperCase().replaceAll("O", "0").replaceAll(/[IL]/g, "1");
}

/** Random characters, five bits of each byte: 32 divides 256, so all are equally likely. */
export function randomCharacters(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => ALPHABET[byte & 31]).join("");
}

/**
 * One check character from the same 32 symbols: Σ αⁱ·xᵢ in GF(2⁵) with α a root of x⁵ + x² + 1 (order 31). Any one wrong
 * character, and any two swapped ones up to 31 places apart, change it.
 * @throws RangeError where a character is not in the alphabet
 */
export function checkCharacter(text: string): string {
  let sum = 0;
  for (const character of text) {
    const value = ALPHABET.indexOf(character);
    if (value < 0) throw new RangeError(`not a Crockford base 32 character: ${character}`);
    sum = timesAlpha(sum) ^ value;
  }
  return ALPHABET[timesAlpha(sum)]!;
}

function timesAlpha(x: number): number {
  const doubled = x << 1;
  return doubled & 32 ? doubled ^ 0b100101 : doubled;
}

/** True where every character is in the alphabet. */
export function isCrockford(text: string): boolean {
  return /^[0-9A-HJKMNP-TV-Z]*$/.test(text);
}
