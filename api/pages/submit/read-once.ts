import { type LogRead, MAX_VALUES, readLog } from "../../../analysis/reading/read-log.ts";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";

/**
 * A log as it reads where nothing is stated of its columns, read once however often a form asks: a form looks at each log for
 * its columns, for its marks and for what it shows. @throws ReadingError
 */
export function readOnce(bytes: Uint8Array): LogRead {
  let read = known.get(bytes);
  if (!read) {
    read = attempt(bytes);
    known.set(bytes, read);
  }
  if (read instanceof ReadingError) throw read;
  return read;
}

const known = new WeakMap<Uint8Array, LogRead | ReadingError>();

function attempt(bytes: Uint8Array): LogRead | ReadingError {
  try {
    requireFewRows(bytes);
    return readLog(bytes);
  } catch (error) {
    if (error instanceof ReadingError) return error;
    throw error;
  }
}

/** A time and one reading each: a log of more rows is refused after it was read, which takes long. @throws ReadingError */
const MOST_ROWS = MAX_VALUES / 2;

export function requireFewRows(bytes: Uint8Array): void {
  let rows = 0;
  let before = LINE_FEED;
  for (const byte of bytes) {
    const ends = byte === LINE_FEED || byte === CARRIAGE_RETURN;
    if (ends && before !== LINE_FEED && before !== CARRIAGE_RETURN) rows++;
    before = byte;
  }
  // A few lines of header do not count.
  if (rows <= MOST_ROWS + 100) return;
  throw new ReadingError("too-large", `about ${rows} rows; at most ${MOST_ROWS}: cut it to the hours of the test`);
}

const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;
