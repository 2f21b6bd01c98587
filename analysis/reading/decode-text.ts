import { ReadingError } from "./reading-error.ts";

/**
 * Text of an uploaded log: UTF-16 where its byte order mark says so, else UTF-8, else Latin-1 (spreadsheets still write it,
 * and "µ" and "°" are the usual victims). Byte order marks go, every line end becomes a line feed.
 * @throws ReadingError "empty", "binary"
 */
export function decodeText(source: string | Uint8Array): string {
  const raw = typeof source === "string" ? source : textOf(source);
  const text = (raw.startsWith("\uFEFF") ? raw.slice(1) : raw).replace(/\r\n?/g, "\n");
  if (text.trim() === "") throw new ReadingError("empty");
  if (looksBinary(text)) throw new ReadingError("binary");
  return text;
}

function textOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return codeUnits(bytes, true);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return codeUnits(bytes, false);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return latin1(bytes);
  }
}

/** UTF-16 by hand: the big-endian decoder is not in every runtime. */
function codeUnits(bytes: Uint8Array, littleEndian: boolean): string {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const units = new Uint16Array(Math.floor(bytes.byteLength / 2));
  for (let i = 0; i < units.length; i++) units[i] = view.getUint16(2 * i, littleEndian);
  return fromCodes(units);
}

function latin1(bytes: Uint8Array): string {
  return fromCodes(Uint16Array.from(bytes));
}

const CHUNK = 8192; // arguments one call of fromCharCode takes safely everywhere

function fromCodes(units: Uint16Array): string {
  const parts: string[] = [];
  for (let i = 0; i < units.length; i += CHUNK) parts.push(String.fromCharCode(...units.subarray(i, i + CHUNK)));
  return parts.join("");
}

/** A NUL anywhere, or more than one control character in a hundred at the beginning, is no text that anyone wrote. */
function looksBinary(text: string): boolean {
  if (text.includes("\0")) return true;
  const head = text.slice(0, 4096);
  let controls = 0;
  for (let i = 0; i < head.length; i++) {
    const code = head.charCodeAt(i);
    if ((code < 32 && code !== 9 && code !== 10 && code !== 12) || (code >= 127 && code < 160)) controls++;
  }
  return controls > Math.max(1, head.length / 100);
}
