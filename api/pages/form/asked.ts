import type { Ctx } from "../../environment.ts";
import { writtenNumber } from "./written-number.ts";

/** A form that was sent by GET: what its fields hold, and what is wrong with them. */
export class Asked {
  readonly texts: Readonly<Record<string, string>>;
  readonly complaints: Record<string, string> = {};

  /** Reads the fields named; others are none of the page's business. One left empty asks for nothing. */
  constructor(c: Ctx, fields: readonly string[]) {
    const sent = c.req.queries();
    const texts: Record<string, string> = {};
    for (const name of fields) {
      const filled = (Object.hasOwn(sent, name) ? sent[name]! : []).map((text) => text.trim()).filter(Boolean);
      if (filled[0] !== undefined) texts[name] = filled[0].slice(0, MOST_SHOWN);
      if (filled.length > 1) this.complain(name, `It is given ${filled.length} times: keep one.`);
    }
    this.texts = texts;
  }

  /** Only the first complaint about a field stands: what follows from it would confuse. */
  complain(name: string, words: string): void {
    this.complaints[name] ??= words;
  }

  get isRight(): boolean {
    return Object.keys(this.complaints).length === 0;
  }

  holds(names: readonly string[]): boolean {
    return names.some((name) => this.texts[name] !== undefined);
  }

  /** A number within two ends, with a decimal point or comma, as `read` reads it; undefined where the field is blank or wrong. */
  number(
    name: string,
    [low, high]: readonly [number, number],
    unit = "",
    read: (text: string) => number = (text) => writtenNumber(text, unit),
  ): number | undefined {
    const text = this.texts[name];
    if (text === undefined) return undefined;
    const value = read(text);
    if (value >= low && value <= high) return value;
    const words = unit && (unit === "%" ? "\u00a0%" : ` ${unit}`);
    this.complain(name, `A number from ${spaced(low)} to ${spaced(high)}${words} is meant, such as 2.5 or 2,5.`);
    return undefined;
  }

  choice<T extends string>(name: string, offered: readonly T[]): T | undefined {
    const text = this.texts[name];
    const found = offered.find((each) => each === text);
    if (text !== undefined && found === undefined) this.complain(name, "One of those offered is meant.");
    return found;
  }
}

/** Thousands apart, so that a limit can be read. */
function spaced(limit: number): string {
  if (limit < 10_000) return String(limit);
  return String(limit).replaceAll(/\B(?=(?:\d{3})+$)/g, "\u00a0");
}

/** More than this of what was typed is not sent back. */
const MOST_SHOWN = 200;
