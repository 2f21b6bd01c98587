/** Mean advance of letters in the bundled font, in em; capitals, w, m and the like take more. Measured on its own tables. */
const NARROW = /[ iljtfr.,:;'’|!()[\]]/u;
const WIDE = /[A-ZmwMWΩЖШЩЮ@%—½]/u;

/** About how wide a text is, in em: enough to break lines by, with a margin. */
export function widthEm(text: string): number {
  let width = 0;
  for (const letter of text) width += NARROW.test(letter) ? 0.3 : WIDE.test(letter) ? 0.72 : 0.54;
  return width;
}

/** A text on at most so many lines of so many em; what is left over gives way to an ellipsis. */
export function wrap(text: string, maxEm: number, maxLines: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ").flatMap((one) => broken(one, maxEm))) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (widthEm(longer) <= maxEm) {
      line = longer;
      continue;
    }
    lines.push(line);
    line = word;
  }
  lines.push(line);
  if (lines.length <= maxLines) return lines;
  return [...lines.slice(0, maxLines - 1), shortened(lines.slice(maxLines - 1).join(" "), maxEm)];
}

function shortened(text: string, maxEm: number): string {
  let kept = [...text];
  while (kept.length > 0 && widthEm(kept.join("")) > maxEm - 1) kept = kept.slice(0, -1);
  return `${kept.join("").trimEnd()}…`;
}

/** A word longer than a line is cut. */
function broken(word: string, maxEm: number): string[] {
  const parts: string[] = [""];
  for (const letter of word) {
    if (widthEm(parts.at(-1)! + letter) > maxEm) parts.push("");
    parts[parts.length - 1] += letter;
  }
  return parts;
}

/** Signs that the bundled font has: the others would leave holes, so a question mark stands for each. */
const KNOWN =
  /[\u0020-\u007e\u00a0-\u017f\u0370-\u03ff\u0400-\u045f\u1e00-\u1eff\u2009\u2013-\u2014\u2018-\u201e\u2020-\u2022\u2026\u2030\u202f\u2032-\u2033\u2039-\u203a\u2070\u2074-\u207b\u2080-\u2084\u20ac\u2190-\u2193\u2212\u221a\u221e\u2248\u2260\u2264-\u2265]/u;

export function drawable(text: string): string {
  return [...text.normalize("NFC")].map((sign) => (KNOWN.test(sign) ? sign : "?")).join("");
}
