/**
 * The Repr-Digest of an answer (RFC 9530, 2): the SHA-256 of its body as it is sent, a byte sequence in a dictionary (RFC 9651).
 * The answer must say `Cache-Control: no-transform`, for what packs it on the way would change what is digested.
 */
export async function reprDigest(body: string | Uint8Array): Promise<{ "Repr-Digest": string }> {
  const bytes = typeof body === "string" ? new TextEncoder().encode(body) : body;
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>));
  return { "Repr-Digest": `sha-256=:${btoa(String.fromCharCode(...hash))}:` };
}

/** The same of bytes whose SHA-256 is known, in hex. */
export function reprDigestOf(sha256: string): string {
  const bytes = sha256.match(/../g)?.map((pair) => Number.parseInt(pair, 16)) ?? [];
  return `sha-256=:${btoa(String.fromCharCode(...bytes))}:`;
}
