/**
 * Indices of at most `most` readings that look like all of them: of each stretch of equal length the lowest and the highest,
 * in order, so that no extreme is lost. `use` says which readings may be drawn.
 */
export function thinned(values: Float64Array, most: number, use: (i: number) => boolean): number[] {
  const usable: number[] = [];
  for (let i = 0; i < values.length; i++) if (use(i)) usable.push(i);
  if (usable.length <= most) return usable;
  const stretches = Math.floor(most / 2);
  const kept: number[] = [];
  for (let n = 0; n < stretches; n++) {
    const from = Math.floor((n * usable.length) / stretches);
    const to = Math.floor(((n + 1) * usable.length) / stretches);
    let [lowest, highest] = [usable[from]!, usable[from]!];
    for (let at = from + 1; at < to; at++) {
      const i = usable[at]!;
      if (values[i]! < values[lowest]!) lowest = i;
      if (values[i]! > values[highest]!) highest = i;
    }
    kept.push(Math.min(lowest, highest));
    if (lowest !== highest) kept.push(Math.max(lowest, highest));
  }
  return kept;
}

/** At most `most` of the items, evenly, the first and the last among them. */
export function evenly<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, n) => items[Math.round((n * (items.length - 1)) / (most - 1))]!);
}
