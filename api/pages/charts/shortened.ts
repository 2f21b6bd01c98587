/** Words in so much room, where no line can be broken: letters count once, wide ones and wide script up to twice. */
export function shortened(words: string, most: number): string {
  let width = 0;
  let kept = "";
  for (const { segment } of new Intl.Segmenter("en").segment(words.replaceAll(/\s+/g, " "))) {
    const code = segment.codePointAt(0)!;
    width += code >= 0x1100 || /[MWm@%]/.test(segment) ? 2 : /[A-Zw]/.test(segment) ? 1.35 : 1;
    if (width > most) return `${kept.trimEnd()}…`;
    kept += segment;
  }
  return kept;
}
