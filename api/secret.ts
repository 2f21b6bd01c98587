/** What is computed under KEY_SECRET: MACs that a stolen database cannot be searched for by guessing. */
export interface Secret {
  mac(purpose: "key" | "room-label" | "trial-content", ...parts: (string | Uint8Array)[]): Promise<Uint8Array>;
}

/** HMAC-SHA-256 (RFC 2104, FIPS 180-4) over length-prefixed parts, so that no two lists of parts run together. */
export async function importSecret(keySecret: string): Promise<Secret> {
  const key = await crypto.subtle.importKey("raw", encode(keySecret), { name: "HMAC", hash: "SHA-256" }, false, [
    "sign",
  ]);
  return {
    async mac(purpose, ...parts) {
      const framed = [purpose, ...parts].flatMap((part) => {
        const bytes = typeof part === "string" ? encode(part) : part;
        return [encode(`${bytes.length}:`), bytes];
      });
      return new Uint8Array(await crypto.subtle.sign("HMAC", key, concatenate(framed)));
    },
  };
}

/** Compares without telling by its time how much agreed. */
export function equalBytes(a: Uint8Array, b: Uint8Array): boolean {
  let differing = a.length ^ b.length;
  for (let i = 0; i < a.length; i++) differing |= a[i]! ^ (b[i] ?? 0);
  return differing === 0;
}

function encode(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text) as Uint8Array<ArrayBuffer>;
}

function concatenate(parts: Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
