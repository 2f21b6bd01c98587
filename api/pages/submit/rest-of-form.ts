/** Enough for all fields of the form but its logs. */
const MOST_FIELDS = 512 * 1024;
/** More than this is not even read to its end: a counter's log of a month. */
const MOST_READ = 64 * 1024 * 1024;

/**
 * The fields behind the last file of a form that is too large to be taken, so that nobody has to fill them in again: nothing
 * but its end is held. Empty where the body was read already, is no form, or is larger still.
 */
export async function restOfForm(request: Request): Promise<Map<string, string>> {
  const type = request.headers.get("Content-Type") ?? "";
  const boundary = /boundary="?([^";]+)"?/.exec(type)?.[1];
  if (!boundary || !request.body || request.bodyUsed) return new Map();
  if (Number(request.headers.get("Content-Length")) > MOST_READ) return new Map();
  try {
    const end = await endOf(request.body);
    // A byte is a character here, so that places in one are places in the other.
    const at = new TextDecoder("latin1").decode(end).indexOf(`\r\n--${boundary}\r\n`);
    if (at < 0) return new Map();
    const form = await new Response(end.slice(at + 2), { headers: { "Content-Type": type } }).formData();
    return new Map([...form].flatMap(([name, value]) => (typeof value === "string" ? [[name, value]] : [])));
  } catch {
    return new Map(); // broken off, or no form
  }
}

async function endOf(body: ReadableStream<Uint8Array>): Promise<Uint8Array<ArrayBuffer>> {
  const kept: Uint8Array[] = [];
  let [length, read] = [0, 0];
  for await (const chunk of body) {
    read += chunk.length;
    if (read > MOST_READ) return new Uint8Array(0);
    kept.push(chunk);
    length += chunk.length;
    while (length - kept[0]!.length >= MOST_FIELDS) length -= kept.shift()!.length;
  }
  const end = new Uint8Array(length);
  let at = 0;
  for (const chunk of kept) {
    end.set(chunk, at);
    at += chunk.length;
  }
  return end;
}
