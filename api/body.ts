import { RequestError } from "./problem.ts";

/** 4 MiB after unpacking: 200 000 values as JSON text, twice over. */
export const MAX_BODY_BYTES = 4 * 1024 * 1024;
/** Time and all channels of all runs, nulls included. */
export const MAX_VALUES = 200_000;

/** Fits a request may ask for, a window of a channel each, and readings in all those windows: some 20 µs a reading. */
export const MAX_FITS = 1024;
export const MAX_FITTED = MAX_VALUES; // each reading in one window

export const HOW_TO_STAY_UNDER =
  "Crop the log to what matters (from, to), leave out channels that no band needs, average it to coarser samples, or send the runs as separate trials.";

export interface UploadedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A request body, read once: JSON, or a form with text fields and files. */
export type Body =
  | { readonly kind: "json"; readonly value: unknown }
  | {
      readonly kind: "form";
      readonly fields: ReadonlyMap<string, string>;
      readonly files: ReadonlyMap<string, UploadedFile>;
    };

/**
 * Reads a JSON or multipart body, gzip unpacked, never holding more than the limit.
 * @throws RequestError "unsupported-media-type", "too-large", "malformed"
 */
export async function readBody(request: Request): Promise<Body> {
  const type = (request.headers.get("Content-Type") ?? "").split(";")[0]!.trim().toLowerCase();
  if (type !== "application/json" && type !== "multipart/form-data") {
    throw new RequestError(
      "unsupported-media-type",
      "Send application/json, or multipart/form-data with the log as a file.",
    );
  }
  const bytes = await readBytes(request);
  if (type === "application/json") return { kind: "json", value: parseJson(bytes) };
  return readForm(bytes, request.headers.get("Content-Type")!);
}

async function readBytes(request: Request): Promise<Uint8Array<ArrayBuffer>> {
  if (!request.body) return new Uint8Array(0);
  // Refused before any of it is read: a client still sending a long body would otherwise see a broken connection.
  if (Number(request.headers.get("Content-Length")) > MAX_BODY_BYTES) throw tooLarge();
  const coding = (request.headers.get("Content-Encoding") ?? "identity").trim().toLowerCase();
  if (coding !== "identity" && coding !== "gzip") {
    throw new RequestError("unsupported-media-type", "The only content coding understood is gzip.");
  }
  const stream = coding === "gzip" ? request.body.pipeThrough(new DecompressionStream("gzip")) : request.body;
  const chunks: Uint8Array[] = [];
  let length = 0;
  try {
    for await (const chunk of stream) {
      length += chunk.length;
      if (length > MAX_BODY_BYTES) break;
      chunks.push(chunk);
    }
  } catch {
    throw new RequestError("malformed", "The body could not be unpacked or broke off.");
  }
  if (length > MAX_BODY_BYTES) throw tooLarge();
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

export function tooLarge(): RequestError {
  return new RequestError("too-large", `A request may hold 4 MiB after unpacking. ${HOW_TO_STAY_UNDER}`);
}

/** Parses JSON text in UTF-8. @throws RequestError "malformed" */
export function parseJson(bytes: Uint8Array | string): unknown {
  try {
    const text = typeof bytes === "string" ? bytes : new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return JSON.parse(text);
  } catch (error) {
    throw new RequestError(
      "malformed",
      `The body is not JSON: ${error instanceof Error ? error.message.slice(0, 120) : "unreadable"}.`,
    );
  }
}

/** A file's name as it can be stored: what no file system allows is replaced, and none is longer than 255. */
export function plainName(name: string): string {
  return name
    .toWellFormed()
    .replaceAll(/\p{Cc}/gu, "\ufffd")
    .slice(0, 255)
    .toWellFormed();
}

async function readForm(bytes: Uint8Array<ArrayBuffer>, contentType: string): Promise<Body> {
  let form: FormData;
  try {
    form = await new Response(bytes, { headers: { "Content-Type": contentType } }).formData();
  } catch {
    throw new RequestError("malformed", "The multipart body could not be taken apart.");
  }
  const fields = new Map<string, string>();
  const files = new Map<string, UploadedFile>();
  for (const [name, part] of form) {
    if (fields.has(name) || files.has(name))
      throw new RequestError("malformed", `Two parts are named ${JSON.stringify(name)}.`);
    if (typeof part === "string") fields.set(name, part);
    else files.set(name, { name: plainName(part.name), bytes: new Uint8Array(await part.arrayBuffer()) });
  }
  return { kind: "form", fields, files };
}
