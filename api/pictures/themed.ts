import { MARKS } from "../pages/styles/marks.ts";
import type { Theme } from "./themes.ts";

/**
 * A drawing of the pages as it can stand alone: what the stylesheet says of its classes stands on its elements instead, in the
 * colours of a theme. Text in it is escaped, so that no `class="` there is taken for an attribute.
 * @throws RangeError where a class or a colour is not known
 */
export function themed(drawing: string, theme: Theme): string {
  const written = drawing.replaceAll(/ class="([^"]*)"/g, (_, classes: string) => {
    const properties = Object.assign({}, ...classes.split(" ").map(propertiesOf)) as Record<string, string>;
    return Object.entries(properties)
      .map(([property, value]) => ` ${property}="${coloured(value, theme)}"`)
      .join("");
  });
  return written.toWellFormed().replaceAll(NOT_XML, "\ufffd");
}

/** What XML 1.0 allows in no text, not even escaped (2.2, Char). */
const NOT_XML = /[^\P{Cc}\t\n\r\u007f-\u009f]|[\ufffe\uffff]/gu;

function propertiesOf(name: string) {
  const properties = MARKS[name];
  if (!properties) throw new RangeError(`a drawing has the class ${name}, which no rule of MARKS is for`);
  return properties;
}

function coloured(value: string, theme: Theme): string {
  return value.replaceAll(/var\(--(\w+)\)/g, (_, name: string) => {
    if (!(name in theme)) throw new RangeError(`a picture has no colour ${name}`);
    return theme[name as keyof Theme];
  });
}
