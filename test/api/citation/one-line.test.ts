import { expect, test } from "vitest";
import { oneLine } from "../../../api/citation/reference.ts";

test("what cannot be seen, turns the direction or is no character stands in no citation", () => {
  const unseen = [
    "\u00ad",
    "\u061c",
    "\u180e",
    "\u200b",
    "\u202e",
    "\u2066",
    "\ufeff",
    "\u{e0041}",
    "\ufffe",
    "\uffff",
  ];
  for (const sign of unseen) expect(oneLine(`a${sign}\n b`)).toBe("a b");
  expect(oneLine("Größe 日本 ½ \u{1f600}")).toBe("Größe 日本 ½ \u{1f600}");
});
