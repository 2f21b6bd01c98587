/**
 * Median of the finite or infinite values given; the mean of the middle two when their number is even. NaN for none. By
 * selection: O(n), where sorting a long log would cost more than fitting it.
 */
export function median(values: ArrayLike<number>): number {
  const n = values.length;
  if (n === 0) return Number.NaN;
  const work = new Float64Array(values);
  const middle = n >> 1;
  const upper = select(work, middle);
  if (n % 2 === 1) return upper;
  let lower = -Infinity;
  for (let i = 0; i < middle; i++) lower = Math.max(lower, work[i]!);
  return 0.5 * (lower + upper);
}

/** The k-th smallest; what is smaller then stands before it (Hoare's selection, the pivot the median of three). */
function select(work: Float64Array, k: number): number {
  let low = 0;
  let high = work.length - 1;
  while (low < high) {
    const pivot = median3(work[low]!, work[(low + high) >> 1]!, work[high]!);
    let i = low;
    let j = high;
    while (i <= j) {
      while (work[i]! < pivot) i++;
      while (work[j]! > pivot) j--;
      if (i > j) break;
      const swapped = work[i]!;
      work[i++] = work[j]!;
      work[j--] = swapped;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return work[k]!;
}

/** Running median over five neighbours, over three or one at the two ends: bounds single outliers, keeps edges. */
export function runningMedian5(values: ArrayLike<number>): Float64Array {
  const n = values.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const reach = Math.min(2, i, n - 1 - i);
    if (reach === 2) out[i] = median5(values[i - 2]!, values[i - 1]!, values[i]!, values[i + 1]!, values[i + 2]!);
    else if (reach === 1) out[i] = median3(values[i - 1]!, values[i]!, values[i + 1]!);
    else out[i] = values[i]!;
  }
  return out;
}

function median3(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/** Drop the lowest of two minima and the highest of two maxima of four; the median of the rest is that of all five. */
function median5(a: number, b: number, c: number, d: number, e: number): number {
  const low = Math.max(Math.min(a, b), Math.min(c, d));
  const high = Math.min(Math.max(a, b), Math.max(c, d));
  return median3(e, low, high);
}
