type Attributes = Readonly<Record<string, string | number>>;

/** An SVG element as text. Attributes are escaped; children are elements or escaped text already. */
export function element(
  name: string,
  attributes: Attributes,
  ...children: readonly (string | readonly string[])[]
): string {
  const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(String(value))}"`);
  const inside = children.flat().join("");
  return inside === "" ? `<${name}${written.join("")}/>` : `<${name}${written.join("")}>${inside}</${name}>`;
}

/** Words as text of an SVG. */
export function text(words: string): string {
  return escaped(words);
}

function escaped(words: string): string {
  return words.replace(/[&<>"']/g, (sign) => `&#${sign.codePointAt(0)};`);
}
