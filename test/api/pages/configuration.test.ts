import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { plusMinus, range } from "../../../api/pages/figures.ts";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { settings } from "../../support/in-process.ts";
import { type DescribedBoxes, factOf, rowsOf, startDescribedBoxes, tableWith, written } from "./described-boxes.ts";
import { all, type Element, hasClass, one, words } from "./html-tree.ts";

describe("the figures of a configuration's page and of its entries", () => {
  let boxes: DescribedBoxes;
  beforeAll(async () => {
    boxes = await startDescribedBoxes();
  });
  afterAll(() => boxes.target.stop());

  test.each(["m3/h", "cfm"])("its figures are those of the API, with who paid beside them, in %s", async (unit) => {
    const { bases } = await boxes.data<EntryOut>(`/v1/entries/${boxes.entry.id}?unit=${unit}`);
    const name = unit === "cfm" ? "cfm" : "m³/h";
    const section = await boxes.opened(`?setting=high&unit=${unit}`);
    const { cadr, prediction } = bases.all!;
    expect(words(one(section, hasClass("figure")))).toBe(`${written(cadr!)} ${name}`);
    const text = words(section).replaceAll("\u00a0", " ");
    expect(text).toContain("Who paid: 3 × bought or built by the tester, 1 × the test was paid for");
    expect(text).toContain("from 4 tests in 3 rooms by 2 testers");
    const ends = /\((.*)\)/.exec(range({ ...prediction!, value: cadr!.value }))![1];
    expect(text).toContain(`In another room, by another counter: ${ends} ${name}`);
    expect(factOf(section, "Clean air per watt")).toBe(`${written(bases.all!.cadr_per_watt!)} ${name} per W`);
    expect(factOf(section, "Clean air per price")).toMatch(
      `${written(bases.all!.cadr_per_cost!)} ${name} per EUR at 62 EUR`,
    );
  });

  test("what was measured stands against what is stated", async () => {
    const section = await boxes.opened();
    const { noise: louder, power, flow } = boxes.entry.against_stated;
    expect(factOf(section, "Noise at 1 m")).toContain(`measured ${plusMinus(louder!)} dB over what is stated (46`);
    expect(factOf(section, "Power")).toContain(`measured ${plusMinus(power!)} times what is stated (38 W)`);
    expect(factOf(section, "Noise at 1 m")).toContain("measured in 1 of 4");
    const percent = { value: 100 * flow!.value, low: 100 * flow!.low, high: 100 * flow!.high };
    expect(factOf(section, "CADR over stated flow")).toMatch(`${written(percent)} % of the 400 m³/h that are stated`);
    const low = await boxes.opened("?setting=LOW");
    expect(factOf(low, "Noise at 1 m")).toBe("not measured; no level is stated");
    expect(factOf(low, "Clean air per watt")).toBe("power was not measured");
    expect(factOf(low, "CADR over stated flow")).toContain("the 300 m³/h that are stated");
  });

  test("the forest plot draws the rooms that the pool is made of, all to one scale", async () => {
    const section = await boxes.opened();
    const { by_room: rooms, bases } = boxes.entry;
    expect(rooms.map(({ room }) => room.label).sort()).toEqual(["Back room", "Back room", "Front room"]);
    const slack = rooms.filter(({ submitter }) => submitter.handle === "Slack water");
    expect(Math.abs(rooms.indexOf(slack[0]!) - rooms.indexOf(slack[1]!))).toBe(1);
    expect(rooms.flatMap((room) => room.trials).sort()).toEqual(
      [boxes.trials.back, boxes.trials.shared, boxes.trials.front, boxes.trials.paid].map(({ id }) => id).sort(),
    );
    for (const name of ["wide", "narrow"]) {
      const svg = one(section, hasClass(name));
      const numbers = (path: Element) => path.attributes.d!.match(/-?\d+(\.\d+)?/g)!.map(Number);
      const ticks = all(svg, "text").filter(
        (text) => text.attributes["text-anchor"] === "middle" && /^\d+$/.test(words(text)),
      );
      const [[x0, v0], [x1, v1]] = [ticks[0]!, ticks.at(-1)!].map((text) => [
        Number(text.attributes.x),
        Number(words(text)),
      ]) as [[number, number], [number, number]];
      const valueAt = (x: number) => v0 + ((x - x0) / (x1 - x0)) * (v1 - v0);
      const pixel = Math.abs(valueAt(x0 + 0.15) - v0);
      const lines = all(svg, hasClass("room-line")).map(numbers);
      expect(lines).toHaveLength(rooms.length);
      for (const [i, [left, , right]] of lines.entries()) {
        expect(Math.abs(valueAt(left!) - rooms[i]!.cadr.low)).toBeLessThan(pixel);
        expect(Math.abs(valueAt(right!) - rooms[i]!.cadr.high)).toBeLessThan(pixel);
      }
      const squares = all(svg, hasClass("room")).map(numbers);
      for (const [i, [left, , width]] of squares.entries()) {
        expect(Math.abs(valueAt(left! + width! / 2) - rooms[i]!.cadr.value)).toBeLessThan(2 * pixel);
      }
      const diamond = numbers(one(svg, hasClass("pooled")));
      expect(Math.abs(valueAt(diamond[0]!) - bases.all!.cadr!.low)).toBeLessThan(pixel);
      expect(Math.abs(valueAt(diamond[4]!) - bases.all!.cadr!.high)).toBeLessThan(pixel);
      const [start, , , , , end] = numbers(one(svg, hasClass("prediction")));
      expect(Math.abs(valueAt(start!) - bases.all!.prediction!.low)).toBeLessThan(pixel);
      expect(Math.abs(valueAt(end!) - bases.all!.prediction!.high)).toBeLessThan(pixel);
    }
    const table = rowsOf(tableWith(section, "Tester and room"));
    for (const [i, row] of table.entries()) {
      const text = words(row);
      expect(text).toContain(`${rooms[i]!.submitter.handle ?? rooms[i]!.submitter.id}: ${rooms[i]!.room.label}`);
      expect(text).toContain(`${written(rooms[i]!.cadr)} m³/h`);
      for (const trial of rooms[i]!.trials) expect(text).toContain(trial);
    }
    expect(table.map(words).find((row) => row.includes(boxes.trials.paid.id))).toMatch(
      /unpaired ?the test was paid for$/,
    );
  });

  test("a corrected room says so, with its reason, and which figure uses it", async () => {
    const section = await boxes.opened();
    const said = all(section, "li")
      .map(words)
      .find((text) => text.includes("was corrected"))!;
    expect(said).toContain("The volume of Slack water: Front room was corrected on ");
    expect(said).toContain("the alcove was forgotten");
    const rows = rowsOf(tableWith(section, "Test"));
    const old = rows.map(words).filter((row) => row.includes("with the volume before its correction"));
    expect(old).toHaveLength(1);
    expect(old[0]).toContain(boxes.trials.front.id);
    const front = boxes.entry.by_room.find(({ room }) => room.label === "Front room")!;
    const own = boxes.entry.trials.find(({ id }) => id === boxes.trials.front.id)!;
    expect(front.cadr.value / own.cadr!.value).toBeCloseTo(31 / 30, 9);
  });

  test("all tests are listed, newest first; what is withdrawn is struck and counts no more", async () => {
    const rows = rowsOf(tableWith(await boxes.opened(), "Test"));
    expect(rows.map((row) => words(one(row, "a")))).toEqual(boxes.entry.trials.map(({ id }) => id));
    for (const [i, row] of rows.entries()) {
      const { cadr, state, paired, interest } = boxes.entry.trials[i]!;
      const text = words(row);
      expect(text).toContain(`${plusMinus(cadr!)} m³/h`);
      expect(text).toContain(paired ? ", paired" : ", unpaired");
      expect(text).toContain(interest === "paid" ? "the test was paid for" : "bought or built by the tester");
      expect(all(row, hasClass("struck"))).toHaveLength(state === "withdrawn" ? 2 : 0);
      expect(text.endsWith(state === "withdrawn" ? "withdrawn, does not count" : "counts")).toBe(true);
    }
    expect(rows.filter((row) => words(row).includes(boxes.trials.withdrawn.id))).toHaveLength(1);
  });

  test("by aerosol it is pooled apart, and mixing is warned of", async () => {
    const section = await boxes.opened();
    const rows = rowsOf(tableWith(section, "Aerosol"));
    expect(rows.map((row) => words(all(row, "th")[0]!))).toEqual(["salt", "incense"]);
    for (const [i, row] of rows.entries()) {
      expect(words(row)).toContain(`${written(boxes.entry.by_aerosol[i]!.cadr)} m³/h`);
      expect(words(row)).toContain(i === 0 ? "bought or built by the tester" : "the test was paid for");
    }
    expect(words(one(section, hasClass("limits")))).toContain("It mixes aerosols");
  });

  test("an boxes.entry has every basis, its own address and its data", async () => {
    const page = await boxes.get(`/entries/${boxes.entry.id}`);
    const rows = rowsOf(tableWith(page, "Tests that count"));
    for (const [i, basis] of (["all", "independent", "paired", "independent_paired"] as const).entries()) {
      const { cadr, trials: count } = boxes.entry.bases[basis]!;
      expect(words(rows[i]!)).toContain(`${written(cadr!)} m³/h`);
      expect(words(rows[i]!).replaceAll("\u00a0", " ")).toContain(`${count} tests`);
    }
    const links = all(page, "a").map(({ attributes }) => attributes.href);
    expect(links).toContain(`/v1/entries/${boxes.entry.id}`);
    const pinned = `/pinned/${boxes.entry.id}/all/${boxes.entry.bases.all!.as_of_seq}`;
    expect(links).toContain(pinned);
    expect(words(one(page, "main"))).toContain(`never change: ${settings.publicUrl}${pinned}`);
  });
});
