/**
 * No control characters but tab and line ends, and no half of a surrogate pair: SQLite cuts text at a NUL, and UTF-8 has
 * no form for a lone surrogate, so what is stored would no longer be what was hashed or compared.
 */
export function isPlain(text: string): boolean {
  return text.isWellFormed() && !/[^\P{Cc}\t\n\r]/u.test(text);
}

export const NOT_PLAIN = { message: "holds a control character or half of a character" };
