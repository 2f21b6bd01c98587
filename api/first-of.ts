/** What a row is put in order by, and its id, by which equals are. */
export interface Ranked {
  readonly key: number;
  readonly id: string;
}

/**
 * The first `count` rows in order of their keys, least first and equals by id, without sorting them all: a heap of the best
 * so far with the worst of them on top, O(n log count). Rows without a key (NaN) are left out, and so are those up to
 * `after`.
 */
export function firstOf(
  rows: Uint32Array,
  count: number,
  keyOf: (row: number) => number,
  ids: readonly string[],
  after: Ranked | null = null,
): number[] {
  const heap: number[] = [];
  const keys: number[] = [];
  const before = (key: number, row: number, otherKey: number, other: number) =>
    key < otherKey || (key === otherKey && ids[row]! < ids[other]!);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    const key = keyOf(row);
    if (Number.isNaN(key)) continue;
    if (after !== null && (key < after.key || (key === after.key && ids[row]! <= after.id))) continue;
    if (heap.length < count) rise(row, key);
    else if (before(key, row, keys[0]!, heap[0]!)) sink(row, key);
  }
  const order = heap.map((_, i) => i).sort((i, j) => (before(keys[i]!, heap[i]!, keys[j]!, heap[j]!) ? -1 : 1));
  return order.map((i) => heap[i]!);

  function put(at: number, row: number, key: number): void {
    heap[at] = row;
    keys[at] = key;
  }

  function rise(row: number, key: number): void {
    let at = heap.length;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (!before(keys[parent]!, heap[parent]!, key, row)) break;
      put(at, heap[parent]!, keys[parent]!);
      at = parent;
    }
    put(at, row, key);
  }

  function sink(row: number, key: number): void {
    let at = 0;
    for (;;) {
      const left = 2 * at + 1;
      if (left >= heap.length) break;
      const right = left + 1;
      const rightIsWorse = right < heap.length && before(keys[left]!, heap[left]!, keys[right]!, heap[right]!);
      const child = rightIsWorse ? right : left;
      if (!before(key, row, keys[child]!, heap[child]!)) break;
      put(at, heap[child]!, keys[child]!);
      at = child;
    }
    put(at, row, key);
  }
}
