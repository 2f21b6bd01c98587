import { MAX_BODY_BYTES, plainName, type UploadedFile } from "../../body.ts";
import { SLOTS, type Slot } from "./form-fields.ts";
import type { FieldComplaint } from "./form-reader.ts";
import type { FormLog } from "./trial-from-form.ts";

/** A log on its way through a page without scripts: gzip in base64, or null where all logs together are too large for that. */
export interface Kept {
  readonly name: string;
  readonly bytes: number;
  readonly packed: string | null;
}

/** Characters of base64 in a page, 60 KB over the wire: compressed again they are what they were. */
const MOST_KEPT = 80_000;

/** The logs of a form: a file goes before pasted text, pasted text before what was kept. */
export async function logsOfForm(
  fields: ReadonlyMap<string, string>,
  files: ReadonlyMap<string, UploadedFile>,
): Promise<{ logs: ReadonlyMap<Slot, FormLog>; complaints: readonly FieldComplaint[] }> {
  const logs = new Map<Slot, FormLog>();
  const complaints: FieldComplaint[] = [];
  let room = MAX_BODY_BYTES; // what was packed counts unpacked, lest a small request ask for long work
  for (const slot of SLOTS) {
    const file = files.get(`${slot}.file`);
    const text = fields.get(`${slot}.text`) ?? "";
    const kept = fields.get(`${slot}.kept`) ?? "";
    const log = await logOf(file, text, kept, fields.get(`${slot}.kept_name`));
    if (log && log.bytes.length <= room) {
      logs.set(slot, log);
      room -= log.bytes.length;
    } else if (file?.name && file.bytes.length === 0) {
      complaints.push({ field: `${slot}.file`, detail: `“${file.name}” is empty (0 bytes).` });
    } else if (log || kept !== "") complaints.push({ field: `${slot}.file`, detail: log ? TOO_LARGE : LOST });
  }
  return { logs, complaints };
}

const LOST = "The log was lost on the way: choose it again.";
const TOO_LARGE = "All logs together may hold 4 MiB: cut this one to the hours of the test.";

async function logOf(
  file: UploadedFile | undefined,
  text: string,
  kept: string,
  keptName: string | undefined,
): Promise<FormLog | null> {
  if (file && file.bytes.length > 0) return file;
  if (text.trim() !== "") return { name: "pasted.csv", bytes: new TextEncoder().encode(text) };
  const bytes = kept === "" ? null : await unpack(kept);
  return bytes && { name: plainName(keptName || "log.csv"), bytes };
}

/**
 * Where a log takes the place of one that was kept, the marks and corrected columns of the other one go. Somebody who marked
 * the new one at once has to do so again, which is better than a mark that was never made.
 */
export async function forgetReplaced(
  fields: Map<string, string>,
  files: ReadonlyMap<string, UploadedFile>,
): Promise<readonly FieldComplaint[]> {
  const complaints: FieldComplaint[] = [];
  for (const slot of SLOTS) {
    const file = files.get(`${slot}.file`)?.bytes;
    const kept = fields.get(`${slot}.kept`) ?? "";
    if (!file?.length || kept === "") continue;
    const before = await unpack(kept);
    if (before?.length === file.length && before.every((byte, i) => byte === file[i])) continue;
    const own = [...fields].filter(([name]) => isOfLog(slot, name));
    for (const [name] of own) fields.delete(name);
    // Columns are shown anew anyway; a mark that is gone has to be told.
    const isMarked = own.some(([name, value]) => name.includes(".mark.") && value.trim() !== "");
    if (isMarked) complaints.push({ field: `${slot}.file`, detail: FORGOTTEN });
  }
  return complaints;
}

export const FORGOTTEN = "Another log: what was marked and corrected in the last one is cleared.";

/** Whether a field says something of the log in a slot. */
export function isOfLog(slot: Slot, name: string): boolean {
  return name.startsWith(`${slot}.`) && /\.(mark|columns)\.|\.day_month$/.test(name);
}

/** Packs the logs to be carried along in the order of their slots, as long as there is room. */
export async function keepLogs(logs: ReadonlyMap<Slot, FormLog>): Promise<ReadonlyMap<Slot, Kept>> {
  const kept = new Map<Slot, Kept>();
  let room = MOST_KEPT;
  for (const [slot, { name, bytes }] of logs) {
    const packed = await pack(bytes);
    const fits = packed.length <= room;
    if (fits) room -= packed.length;
    kept.set(slot, { name, bytes: bytes.length, packed: fits ? packed : null });
  }
  return kept;
}

async function pack(bytes: Uint8Array): Promise<string> {
  const whole = await new Response(streamOf(bytes).pipeThrough(new CompressionStream("gzip"))).arrayBuffer();
  return btoa(Array.from(new Uint8Array(whole), (byte) => String.fromCharCode(byte)).join(""));
}

/** What was packed; null where it is none, or unpacks to more than a request may hold. */
async function unpack(text: string): Promise<Uint8Array | null> {
  try {
    const packed = Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
    const chunks: Uint8Array[] = [];
    let length = 0;
    for await (const chunk of streamOf(packed).pipeThrough(new DecompressionStream("gzip"))) {
      length += chunk.length;
      if (length > MAX_BODY_BYTES) return null;
      chunks.push(chunk);
    }
    const bytes = new Uint8Array(length);
    let at = 0;
    for (const chunk of chunks) {
      bytes.set(chunk, at);
      at += chunk.length;
    }
    return bytes;
  } catch {
    return null; // not base64, or not gzip
  }
}

function streamOf(bytes: Uint8Array): ReadableStream<Uint8Array<ArrayBuffer>> {
  return new Blob([bytes as Uint8Array<ArrayBuffer>]).stream();
}
