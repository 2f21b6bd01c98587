import { expect, test } from "vitest";
import { shortened } from "../../../api/pages/charts/shortened.ts";
import { limitsOf, spreadWords } from "../../../api/pages/configuration/pooled-words.ts";
import type { BasisOut } from "../../../api/wire/entry.ts";

const basis = (changes: Partial<BasisOut>) =>
  ({
    spread: { relative: 0.13, dof: 8, source: "assumed" },
    tau: 0.118,
    trials: 3,
    rooms: 3,
    submitters: 3,
    unpaired: 0,
    interest: { independent: 3 },
    aerosols: { salt: 3 },
    ...changes,
  }) as BasisOut;
const plain = (text: string) => text.replaceAll("\u00a0", " ");

test("what spread was used, and where it comes from", () => {
  expect(plain(spreadWords(basis({})))).toBe(
    "Laboratories are assumed to differ by a standard deviation of 13 %, until three cleaners were measured by three testers or more each. With what these 3 testers show of it, 12 % was used.",
  );
  const alone = plain(spreadWords(basis({ submitters: 1, trials: 2 })));
  expect(alone).toContain("assumed to differ by a standard deviation of 13 %");
  expect(alone).toMatch(/a single tester shows nothing of it\.$/);
  const learnt = { relative: 0.094, dof: 20, source: "learnt" } as const;
  const many = plain(spreadWords(basis({ submitters: 6, spread: learnt, tau: 0.07 })));
  expect(many).toContain("taken from these 6 testers: a standard deviation of 7 %");
  expect(many).toContain("found for all cleaners: a standard deviation of 9.4 %, learnt");
});

test("limits are told only where they hold", () => {
  expect(limitsOf(basis({}))).toEqual([]);
  expect(limitsOf(basis({ trials: 1, rooms: 1, submitters: 1, unpaired: 1 }))).toEqual([
    expect.stringMatching(/^One test only/),
    expect.stringMatching(/^It is unpaired.*unless it is asked for/),
  ]);
  expect(limitsOf(basis({ submitters: 1, rooms: 1 }))[0]).toMatch(/^All 3 tests are one tester’s, in one room/);
  expect(plain(limitsOf(basis({ unpaired: 2 }))[0]!)).toMatch(/^2 tests unpaired/);
  expect(limitsOf(basis({ unpaired: 3 }))[0]).toMatch(/^All unpaired/);
  expect(limitsOf(basis({ aerosols: { salt: 2, incense: 1 } }))[0]).toMatch(/^It mixes aerosols/);
  expect(limitsOf(basis({ interest: { paid: 2, maker_or_seller: 1 } }))[0]).toMatch(/^No test of it is by someone/);
});

test("words are cut to their room, wide script sooner, and never inside a letter", () => {
  expect(shortened("Back room", 20)).toBe("Back room");
  expect(shortened("a back behind the shop", 10)).toBe("a back beh…");
  expect(shortened("木".repeat(20), 10)).toBe(`${"木".repeat(5)}…`);
  const family = "👩\u200d👩\u200d👧";
  expect(shortened(`${family}${family}`, 3)).toBe(`${family}…`);
  expect(shortened("two\nlines", 20)).toBe("two lines");
});
