import { isPlain } from "../wire/is-plain.ts";

/**
 * The shape of JSON, read without a schema library, which is larger than the whole analysis. It says yes or nothing: what
 * it cannot vouch for is Unread, and the server, which has the words for each complaint, is asked instead.
 */
export class Unread extends Error {
  override readonly name = "Unread";
}

export type Read<T> = (value: unknown) => T;

/** An object of exactly these fields; a field left out is given to its reader as undefined. */
export function fields<T extends object>(shape: { readonly [K in keyof T]-?: Read<T[K]> }): Read<T> {
  return (value) => {
    const object = asObject(value);
    if (Object.keys(object).some((key) => !Object.hasOwn(shape, key))) throw new Unread();
    return read(object, shape);
  };
}

/** Some fields of an object; the others are nobody's business here. */
export function someFields<T extends object>(shape: { readonly [K in keyof T]-?: Read<T[K]> }): Read<T> {
  return (value) => read(asObject(value), shape);
}

function asObject(value: unknown): Readonly<Record<string, unknown>> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new Unread();
  return value as Readonly<Record<string, unknown>>;
}

function read<T extends object>(
  object: Readonly<Record<string, unknown>>,
  shape: { readonly [K in keyof T]-?: Read<T[K]> },
): T {
  const entries = Object.entries<Read<unknown>>(shape).map(([key, reader]) => {
    return [key, reader(Object.hasOwn(object, key) ? object[key] : undefined)] as const;
  });
  return Object.fromEntries(entries.filter(([, value]) => value !== undefined)) as T;
}

export function optional<T>(reader: Read<T>): Read<T | undefined> {
  return (value) => (value === undefined ? undefined : reader(value));
}

export function otherwise<T>(reader: Read<T>, fallback: T): Read<T> {
  return (value) => (value === undefined ? fallback : reader(value));
}

export function list<T>(reader: Read<T>, least: number, most: number): Read<T[]> {
  return (value) => {
    if (!Array.isArray(value) || value.length < least || value.length > most) throw new Unread();
    return value.map(reader);
  };
}

export function oneOf<const T extends string>(...words: readonly T[]): Read<T> {
  return (value) => words.find((word) => word === value) ?? refuse();
}

export function either<A, B>(one: Read<A>, other: Read<B>): Read<A | B> {
  return (value) => {
    try {
      return one(value);
    } catch (error) {
      if (error instanceof Unread) return other(value);
      throw error;
    }
  };
}

export function string(most: number, holds: (text: string) => boolean = () => true): Read<string> {
  return (value) => (typeof value === "string" && value.length <= most && holds(value) ? value : refuse());
}

/** Text of 1 to `most` characters, trimmed, without control characters. */
export function plainText(most: number): Read<string> {
  return (value) => {
    const text = typeof value === "string" ? value.trim() : "";
    return text.length > 0 && text.length <= most && isPlain(text) ? text : refuse();
  };
}

export function number(holds: (value: number) => boolean = () => true): Read<number> {
  return (value) => (typeof value === "number" && Number.isFinite(value) && holds(value) ? value : refuse());
}

export function refuse(): never {
  throw new Unread();
}
