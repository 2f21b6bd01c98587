import fc from "fast-check";
import { expect, test } from "vitest";
import { placeNames } from "../../../api/pages/charts/place-names.ts";

test("names beside points cover neither each other nor a point", () => {
  const coordinate = fc.integer({ min: 0, max: 300 });
  const points = fc.array(fc.record({ x: coordinate, y: coordinate, name: fc.stringMatching(/^\d{1,3}$/) }), {
    maxLength: 40,
  });
  const within = { left: 0, top: 0, right: 300, bottom: 300 };
  fc.assert(
    fc.property(points, (named) => {
      const boxes = placeNames(named, within).map(({ name, x, y, anchor }) => {
        const width = 7.5 * name.length;
        const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
        return { left, right: left + width, top: y - 10, bottom: y + 1 };
      });
      for (const [i, box] of boxes.entries()) {
        expect(box.left >= 0 && box.right <= 300 && box.top >= 0 && box.bottom <= 300).toBe(true);
        for (const { x, y } of named)
          expect(x > box.left && x < box.right && y > box.top && y < box.bottom).toBe(false);
        for (const other of boxes.slice(i + 1)) {
          const apart =
            box.right <= other.left || other.right <= box.left || box.bottom <= other.top || other.bottom <= box.top;
          expect(apart).toBe(true);
        }
      }
    }),
    { numRuns: 200, seed: 20261108 },
  );
  expect(placeNames([{ x: 150, y: 150, name: "1" }], within)).toHaveLength(1);
});
