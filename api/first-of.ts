/**
 * The first `count` of those that pass, in order, without sorting all: a heap of the best so far with the worst of them on
 * top. O(n log count).
 */
export function firstOf(
  rows: Iterable<number>,
  count: number,
  before: (a: number, b: number) => boolean,
  passes: (row: number) => boolean = () => true,
): number[] {
  const heap: number[] = [];
  for (const row of rows) {
    if (!passes(row)) continue;
    if (heap.length < count) rise(heap, row, before);
    else if (before(row, heap[0]!)) sink(heap, row, before);
  }
  return heap.sort((a, b) => (before(a, b) ? -1 : 1));
}

function rise(heap: number[], row: number, before: (a: number, b: number) => boolean): void {
  let at = heap.push(row) - 1;
  while (at > 0) {
    const parent = (at - 1) >> 1;
    if (!before(heap[parent]!, row)) break;
    heap[at] = heap[parent]!;
    at = parent;
  }
  heap[at] = row;
}

function sink(heap: number[], row: number, before: (a: number, b: number) => boolean): void {
  let at = 0;
  for (;;) {
    const left = 2 * at + 1;
    if (left >= heap.length) break;
    const right = left + 1;
    const child = right < heap.length && before(heap[left]!, heap[right]!) ? right : left;
    if (!before(row, heap[child]!)) break;
    heap[at] = heap[child]!;
    at = child;
  }
  heap[at] = row;
}
