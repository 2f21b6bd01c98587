interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Named {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

interface PlacedName extends Named {
  readonly anchor: "start" | "end" | "middle";
}

const LETTER = 7.5; // pixels a digit takes in the charts' type, common practice
const HEIGHT = 12;
const MARK = 6;

/** Names beside their points, each where it covers no other name and no point; one that has no such place is left out. */
export function placeNames(points: readonly Named[], within: Box): PlacedName[] {
  const taken: Box[] = points.map(({ x, y }) => ({ left: x - MARK, right: x + MARK, top: y - MARK, bottom: y + MARK }));
  const placed: PlacedName[] = [];
  for (const point of points) {
    const fit = PLACES.map((place) => place(point)).find((candidate) => {
      const box = boxOf(candidate);
      return isInside(box, within) && !taken.some((other) => overlap(box, other));
    });
    if (!fit) continue;
    placed.push(fit);
    taken.push(boxOf(fit));
  }
  return placed;
}

/** Off the bars, which run along both axes: the four corners first. */
const PLACES: readonly ((point: Named) => PlacedName)[] = [
  ({ name, x, y }) => ({ name, x: x + 7, y: y - 7, anchor: "start" }),
  ({ name, x, y }) => ({ name, x: x - 7, y: y - 7, anchor: "end" }),
  ({ name, x, y }) => ({ name, x: x + 7, y: y + 17, anchor: "start" }),
  ({ name, x, y }) => ({ name, x: x - 7, y: y + 17, anchor: "end" }),
  ({ name, x, y }) => ({ name, x, y: y - 10, anchor: "middle" }),
  ({ name, x, y }) => ({ name, x: x + 18, y: y + 4, anchor: "start" }),
];

function boxOf({ name, x, y, anchor }: PlacedName): Box {
  const width = LETTER * name.length;
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - HEIGHT + 2, bottom: y + 1 };
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function isInside(box: Box, within: Box): boolean {
  return box.left >= within.left && box.right <= within.right && box.top >= within.top && box.bottom <= within.bottom;
}
