export type DayMonthOrder = "dmy" | "mdy";

const LONGEST = 64; // no time is written longer; expressions must not be led astray by a cell of a megabyte
const CLOCK = String.raw`(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?(?:\s*([AaPp])\.?[Mm]\.?)?`;
const ZONE = String.raw`(?:\s*(Z|z|UTC|GMT|[+-]\d{2}(?::?\d{2})?))?`;
const TAIL = `(?:(?:[Tt]|,?\\s+)${CLOCK}${ZONE})?$`;
const YEAR_FIRST = new RegExp(`^(\\d{4})([-/.])(\\d{1,2})\\2(\\d{1,2})${TAIL}`);
const YEAR_LAST = new RegExp(`^(\\d{1,2})([-/.])(\\d{1,2})\\2(\\d{4}|\\d{2})${TAIL}`);
const CLOCK_ALONE = /^(\d{1,4}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?(?:\s*([AaPp])\.?[Mm]\.?)?$/;

/**
 * Milliseconds since 1970-01-01T00:00Z of a date, with or without a time of day; NaN where the text is none. A stamp without
 * a zone is read as if it were UTC: differences hold, the instant is unknown. RFC 3339, its relatives with a space, and
 * day/month/year in the order given.
 */
export function stampMs(cell: string, order: DayMonthOrder): number {
  if (cell.length > LONGEST) return Number.NaN;
  const text = cell.trim();
  const yearFirst = YEAR_FIRST.exec(text);
  if (yearFirst) return instant(yearFirst, Number(yearFirst[1]), Number(yearFirst[3]), Number(yearFirst[4]));
  const m = YEAR_LAST.exec(text);
  if (!m) return namedMonthMs(text);
  const [first, second] = [Number(m[1]), Number(m[3])];
  const year = m[4]!.length === 2 ? 2000 + Number(m[4]) : Number(m[4]);
  return order === "dmy" ? instant(m, year, second, first) : instant(m, year, first, second);
}

const NAMED_MONTH = /^(\d{1,2})[-. ]+([A-Za-z]{3})[a-z]*\.?[-. ]+(\d{4})(?!\d)(.*)$/;
const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** "3-Apr-2026 10:00" is read as "2026-4-3 10:00". */
function namedMonthMs(text: string): number {
  const m = NAMED_MONTH.exec(text);
  const month = m ? MONTHS.indexOf(m[2]!.toLowerCase()) + 1 : 0;
  return m && month > 0 ? stampMs(`${m[3]}-${month}-${m[1]}${m[4]}`, "dmy") : Number.NaN;
}

function instant(m: RegExpExecArray, year: number, month: number, day: number): number {
  const midnight = Date.UTC(year, month - 1, day);
  if (month < 1 || month > 12 || day < 1 || (day > 28 && new Date(midnight).getUTCDate() !== day)) return Number.NaN;
  if (m[5] === undefined) return midnight;
  const seconds = dayTimeS(Number(m[5]), Number(m[6]), m[7], m[8]);
  return midnight + 1000 * seconds - 60_000 * zoneMinutes(m[9]);
}

function dayTimeS(hours: number, minutes: number, seconds: string | undefined, half: string | undefined): number {
  const s = Number((seconds ?? "0").replace(",", "."));
  if (minutes > 59 || s >= 61 || (half ? hours < 1 || hours > 12 : hours > 23)) return Number.NaN; // 60: a leap second
  const h = half ? (hours % 12) + (half.toLowerCase() === "p" ? 12 : 0) : hours;
  return 3600 * h + 60 * minutes + s;
}

function zoneMinutes(zone: string | undefined): number {
  const m = /^([+-])(\d{2}):?(\d{2})?$/.exec(zone ?? "");
  return m ? (m[1] === "-" ? -1 : 1) * (60 * Number(m[2]) + Number(m[3] ?? 0)) : 0;
}

/** Whether a stamp says its offset from UTC. */
export function isZoned(cell: string): boolean {
  return cell.length <= LONGEST && ZONED.test(cell.trim());
}

const ZONED = /:\d{2}(?:[.,]\d+)?\s*(?:[AaPp]\.?[Mm]\.?)?\s*(?:Z|z|UTC|GMT|[+-]\d{2}(?::?\d{2})?)$/;

/** Seconds shown by a clock (18:20:05, 6:20:05 pm) or a stop-watch (25:00:01); NaN where the text is neither. */
export function clockSeconds(cell: string, twoParts: "hh:mm" | "mm:ss" = "hh:mm"): number {
  const m = cell.length > LONGEST ? null : CLOCK_ALONE.exec(cell.trim());
  if (!m) return Number.NaN;
  if (m[3] === undefined && twoParts === "mm:ss" && !m[4]) return 60 * Number(m[1]) + Number(m[2]);
  if (m[4]) return dayTimeS(Number(m[1]), Number(m[2]), m[3], m[4]);
  const s = Number((m[3] ?? "0").replace(",", "."));
  return Number(m[2]) > 59 || s >= 61 ? Number.NaN : 3600 * Number(m[1]) + 60 * Number(m[2]) + s;
}

/** Whether a cell shows a date or a time of day. */
export function readsAsTime(cell: string): boolean {
  return (
    !Number.isNaN(clockSeconds(cell)) || !Number.isNaN(stampMs(cell, "dmy")) || !Number.isNaN(stampMs(cell, "mdy"))
  );
}

/** Whether a cell is a date without a time of day: half of a stamp that stands in two columns. */
export function isDateAlone(cell: string): boolean {
  return !cell.includes(":") && !Number.isNaN(stampMs(cell, "dmy") || stampMs(cell, "mdy"));
}

/**
 * Order of day and month in a column of year-last stamps. Points tell (day first: common practice, no source), a part over 12
 * tells, and so does a log that lasts hours one way and weeks the other. Null where nothing tells.
 */
export function findDayMonthOrder(cells: readonly string[]): DayMonthOrder | null {
  let told: DayMonthOrder | null = null;
  let seen = false;
  for (const cell of cells) {
    const m = cell.length > LONGEST ? null : YEAR_LAST.exec(cell.trim());
    if (!m) continue;
    if (m[2] === ".") return "dmy";
    seen = true;
    if (Number(m[1]) > 12) told = "dmy";
    else if (Number(m[3]) > 12) told = "mdy";
    if (told) return told;
  }
  return seen ? shorterOrder(cells) : "dmy";
}

const DAY_MS = 86_400_000;

function shorterOrder(cells: readonly string[]): DayMonthOrder | null {
  const span = (order: DayMonthOrder) => {
    const times = cells.map((cell) => stampMs(cell, order)).filter((ms) => !Number.isNaN(ms));
    return (
      times.reduce((max, ms) => Math.max(max, ms), -Infinity) - times.reduce((min, ms) => Math.min(min, ms), Infinity)
    );
  };
  const [dmy, mdy] = [span("dmy"), span("mdy")];
  if (dmy < 3 * DAY_MS && mdy > 20 * DAY_MS) return "dmy";
  return mdy < 3 * DAY_MS && dmy > 20 * DAY_MS ? "mdy" : null;
}
