import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ALPHABET, checkCharacter, fold } from "../../api/crockford.ts";
import { ID_PREFIXES, makeId, parseId } from "../../api/public-id.ts";
import { makeKey, parseKey } from "../../api/submitter-key.ts";
import { StoreError } from "../../db/store-error.ts";

const random = (length: number) => crypto.getRandomValues(new Uint8Array(length));
const bytes = fc.uint8Array({ minLength: 10, maxLength: 10 });
const codeOf = (id: string) => {
  try {
    return parseId("trial", id);
  } catch (error) {
    return (error as StoreError).code;
  }
};

describe("public ids", () => {
  test("are a prefix, ten random characters and a check character of Crockford's 32", () => {
    for (const [type, prefix] of Object.entries(ID_PREFIXES)) {
      const id = makeId(type as keyof typeof ID_PREFIXES, random);
      expect(id).toMatch(new RegExp(`^${prefix}-[0-9A-HJKMNP-TV-Z]{11}$`));
    }
    expect(ALPHABET).toHaveLength(32);
  });

  test("are read in any case, with O for 0, I or L for 1, and without the hyphen", () => {
    fc.assert(
      fc.property(bytes, fc.constantFrom("I", "L", "i", "l"), (raw, one) => {
        const id = makeId("trial", () => raw);
        const body = id.slice(4).replaceAll("0", "o").replaceAll("1", one);
        for (const typed of [
          id,
          id.toLowerCase(),
          `trl-${body}`,
          `TRL-${body.toLowerCase()}`,
          `trl${body}`,
          ` ${id} `,
        ]) {
          expect(parseId("trial", typed)).toBe(id);
        }
      }),
    );
  });

  test("tell every single wrong character and every swap of neighbours", () => {
    fc.assert(
      fc.property(bytes, fc.nat(10), fc.nat(30), (raw, at, by) => {
        const id = makeId("trial", () => raw);
        const body = [...id.slice(4)];
        const wrong = body.with(at, ALPHABET[(ALPHABET.indexOf(body[at]!) + 1 + by) % 32]!);
        expect(codeOf(`trl-${wrong.join("")}`)).toBe("mistyped-id");
        if (at < 10 && body[at] !== body[at + 1]) {
          const swapped = body.with(at, body[at + 1]!).with(at + 1, body[at]!);
          expect(codeOf(`trl-${swapped.join("")}`)).toBe("mistyped-id");
        }
      }),
      { numRuns: 2000 },
    );
  });

  test("of one type are not those of another", () => {
    const id = makeId("entry", random);
    expect(codeOf(id)).toBe("not-found");
    expect(codeOf(`trl-${id.slice(4)}`)).toBe("mistyped-id");
    expect(codeOf("trl-UUUUUUUUUUU")).toBe("not-found");
    expect(codeOf("")).toBe("not-found");
  });

  test("never throw anything but the store's own words", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        try {
          parseId("trial", text);
        } catch (error) {
          expect(error).toBeInstanceOf(StoreError);
        }
      }),
    );
  });
});

describe("submitter keys", () => {
  test("carry at least 128 random bits and read back", () => {
    const asked: number[] = [];
    const key = makeKey((length) => {
      asked.push(length);
      return random(length);
    });
    expect(asked[1]! * 5).toBeGreaterThanOrEqual(128); // five bits a character
    expect(parseKey(key.text)).toEqual(key);
    expect(parseKey(key.text.toLowerCase())).toEqual(key);
  });

  test("tell a mistyped character without asking anybody", () => {
    const { text } = makeKey(random);
    const last = text.at(-1)!;
    const other = ALPHABET[(ALPHABET.indexOf(last) + 7) % 32]!;
    expect(parseKey(text.slice(0, -1) + other)).toBeNull();
    for (const none of ["", "mote_", "mote_a_b", "Bearer x", "🌊", `${text}0`]) expect(parseKey(none)).toBeNull();
  });

  test("a check character refuses what is not in the alphabet", () => {
    expect(() => checkCharacter("U")).toThrow(RangeError);
    expect(fold("oil")).toBe("011");
  });
});
