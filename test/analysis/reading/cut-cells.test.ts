import fc from "fast-check";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { cutCells } from "../../../analysis/reading/cut-cells.ts";

test.each([
  [
    "a,b\n1,2",
    [
      ["a", "b"],
      ["1", "2"],
    ],
  ],
  [
    '"a, b",c\n"say ""1""",2',
    [
      ["a, b", "c"],
      ['say "1"', "2"],
    ],
  ],
  ['"a" ,b', [["a", "b"]]],
  ['5" pipe,b', [['5" pipe', "b"]]],
  ['"two\nlines",b', [["two\nlines", "b"]]],
  ['a,"open\n1,2', [["a", "open\n1,2"]]],
])("%j", (text, rows) => {
  expect(cutCells(text, ",")).toEqual(rows);
});

test("the same cells as Papa Parse finds, quotes in any place", () => {
  const character = fc.constantFrom("1", "a", ",", ";", "\t", '"', "\n", " ", "");
  fc.assert(
    fc.property(fc.array(character, { maxLength: 24 }), fc.constantFrom(",", ";", "\t"), (characters, delimiter) => {
      const text = `x${characters.join("")}\n1`; // with a blank after the last quote of all it loses its place
      const theirs = Papa.parse<string[]>(text, { header: false, delimiter, newline: "\n" }).data;
      expect(cutCells(text, delimiter as ",")).toEqual(theirs);
    }),
    { numRuns: 20_000 },
  );
});
