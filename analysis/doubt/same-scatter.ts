/** Readings in a window; its bits make one 32-bit number. */
const WINDOW = 32;
/** A window of a smooth curve says nothing: so many changes of sign make it one that noise wrote. */
const LEAST_CHANGES = 8;
/** Windows kept of a channel: the smallest numbers, which a log shortened at its ends mostly keeps. */
const KEPT = 4;
/** Below this many readings in common two logs are not compared. */
const LEAST_READINGS = 30;
/** A bend below this share of a reading is none: arithmetic on the numbers sent makes such of equal steps. */
const ROUNDING = 1e-9;
/** Correlation of scatter from which two logs are one. Independent ones scatter about 0 ± 1/√n. */
const SAME = 0.999;

/** Bits of a window that differ from those some places on, of 22 or more: so few make it a pattern that repeats. */
const LEAST_OFF_PATTERN = 3;
const LONGEST_PATTERN = 10;

/** A window of scatter: the signs of its second differences as a number, and the reading it ends at. */
export interface ScatterWindow {
  readonly hash: number;
  readonly at: number;
}

/**
 * The windows of a log by which it can be found again. The sign of a second difference y(i+1) − 2y(i) + y(i−1) stays the
 * same under y → a·y + b with a > 0, so a log that was scaled or shifted has the same ones. A counter that is read more
 * often than it measures repeats itself: only readings that differ are looked at. Neither these repeats nor a pattern, as of
 * two counters read in turn, tell one log from another.
 */
export function scatterWindows(values: Float64Array): ScatterWindow[] {
  const smallest: ScatterWindow[] = [];
  let bits = 0;
  let known = 0;
  let [before, last] = [Number.NaN, Number.NaN];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value === last) continue;
    const bend = value - 2 * last + before;
    const size = ROUNDING * Math.abs(last);
    [before, last] = [last, value];
    if (Number.isNaN(bend)) {
      known = 0;
      continue;
    }
    bits = ((bits << 1) | (bend > size ? 1 : 0)) >>> 0;
    known++;
    if (known < WINDOW || changesIn(bits) < LEAST_CHANGES) continue;
    const hash = scrambled(bits);
    if (smallest.length === KEPT && hash >= smallest[KEPT - 1]!.hash) continue;
    if (!repeats(bits)) keep(smallest, { hash, at: i });
  }
  return smallest;
}

function keep(smallest: ScatterWindow[], window: ScatterWindow): void {
  if (smallest.some(({ hash }) => hash === window.hash)) return;
  smallest.push(window);
  smallest.sort((a, b) => a.hash - b.hash);
  if (smallest.length > KEPT) smallest.pop();
}

function repeats(bits: number): boolean {
  for (let period = 2; period <= LONGEST_PATTERN; period++) {
    const compared = 0xffffffff >>> period;
    if (onesIn((bits ^ (bits >>> period)) & compared) < LEAST_OFF_PATTERN) return true;
  }
  return false;
}

/** Neighbouring bits that differ: x ⊕ x/2 has a 1 for each. */
function changesIn(bits: number): number {
  return onesIn((bits ^ (bits >>> 1)) & 0x7fffffff);
}

function onesIn(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count++;
  return count;
}

/** One-to-one on 32 bits, so that "the smallest" is a sample by chance: Murmur3's finaliser. */
function scrambled(bits: number): number {
  let h = bits;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** A channel with its windows, which are looked for once. */
export interface Scatter {
  readonly values: Float64Array;
  readonly windows: readonly ScatterWindow[];
}

/**
 * Whether two channels are one log, scaled or shifted: their second differences, aligned at a window they share, correlate
 * to 0.999 over at least 30 readings. Two counters in one room see one decay, and each its own scatter.
 */
export function isSameScatter(a: Scatter, b: Scatter): boolean {
  const found = new Map(a.windows.map(({ hash, at }) => [hash, at]));
  const shifts = b.windows.flatMap(({ hash, at }) => {
    const other = found.get(hash);
    return other === undefined ? [] : [other - at];
  });
  return [...new Set(shifts)].some((shift) => correlation(a.values, b.values, shift) > SAME);
}

/** A channel as it is compared. */
export function scatterOf(values: Float64Array): Scatter {
  return { values, windows: scatterWindows(values) };
}

/** Pearson's r of the second differences of a and of b moved by `shift` readings; 0 where too few are common. */
function correlation(a: Float64Array, b: Float64Array, shift: number): number {
  let [n, sumA, sumB, sumAA, sumBB, sumAB] = [0, 0, 0, 0, 0, 0];
  const [from, to] = [Math.max(1, 1 + shift), Math.min(a.length, b.length + shift) - 1];
  for (let i = from; i < to; i++) {
    const x = a[i + 1]! - 2 * a[i]! + a[i - 1]!;
    const j = i - shift;
    const y = b[j + 1]! - 2 * b[j]! + b[j - 1]!;
    if (Number.isNaN(x + y)) continue;
    n++;
    sumA += x;
    sumB += y;
    sumAA += x * x;
    sumBB += y * y;
    sumAB += x * y;
  }
  if (n < LEAST_READINGS) return 0;
  const spread = Math.sqrt((sumAA - sumA ** 2 / n) * (sumBB - sumB ** 2 / n));
  return spread > 0 ? (sumAB - (sumA * sumB) / n) / spread : 0;
}
