/** The Repr-Digest of an answer (RFC 9530, 2): the SHA-256 of its body as it is sent, a byte sequence in a dictionary (RFC 9651). */
export async function reprDigest(body: string | Uint8Array): Promise<{ "Repr-Digest": string }> {
  const bytes = typeof body === "string" ? new TextEncoder().encode(body) : body;
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>));
  return { "Repr-Digest": `sha-256=:${btoa(String.fromCharCode(...hash))}:` };
}
