import { coverageFactor95 } from "../../../analysis/estimate.ts";
import { givenVolume, rectangularVolume } from "../../../analysis/room-volume.ts";
import type { Asked } from "./asked.ts";
import { writtenIn } from "./written-number.ts";

export const SIZE_FIELDS = ["in", "length", "width", "height", "area", "volume", "within"] as const;

/** A room's volume in the unit its sides were given in, with its standard uncertainty. */
interface SizeAsked {
  readonly value: number;
  readonly unit: "m3" | "[cft_i]";
  readonly u: number;
}

/** What is said of the ± of a volume: the reader's own, or what is assumed as of a test's room (common practice, no source). */
export function basisWords(asked: Asked): string {
  if (asked.texts.within !== undefined) return ", as given";
  const [percent, what] = hasThreeSides(asked) ? [4, "three taped sides"] : [10, "a size given without its ±"];
  return `; about ±\u00a0${percent}\u00a0% is assumed for ${what} (common practice, no source)`;
}

const SIDE = [0.1, 1000] as const;
const AREA = [0.1, 1e6] as const;
const VOLUME_M3 = [0.1, 1e6] as const;
const M3_PER_CUBIC_FOOT = 0.3048 ** 3;

/** The size of a room from its three sides, its floor and height, or its volume. Null, with complaints, where it is not whole. */
export function readSize(asked: Asked): SizeAsked | null {
  const unit = readLengthUnit(asked) === "ft" ? "[cft_i]" : "m3";
  const value = readVolume(asked);
  const within = asked.number("within", [0, 100], "%");
  if (value === null || !asked.isRight) return null;
  const m3 = unit === "m3" ? value : value * M3_PER_CUBIC_FOOT;
  if (!(m3 >= VOLUME_M3[0] && m3 <= VOLUME_M3[1])) {
    asked.complain(asked.texts.volume === undefined ? "length" : "volume", "No room is of this size.");
    return null;
  }
  const relativeU = within === undefined ? assumedRelativeU(asked) : within / 100 / coverageFactor95(Infinity);
  return { value, unit, u: value * relativeU };
}

/** As much of the volume as is taken of the room of a test that says no more; the same for sides of any length. */
function assumedRelativeU(asked: Asked): number {
  const unstated = { value: 1, u: null };
  const { volumeM3 } = hasThreeSides(asked)
    ? rectangularVolume([unstated, unstated, unstated], null)
    : givenVolume(unstated);
  return volumeM3.u;
}

function hasThreeSides({ texts: { length, width, height } }: Asked): boolean {
  return length !== undefined && width !== undefined && height !== undefined;
}

/** The unit of every length in the form; its square and cube are those of areas and volumes. */
export function readLengthUnit(asked: Asked): "m" | "ft" {
  return asked.choice("in", ["m", "ft"]) ?? "m";
}

function readVolume(asked: Asked): number | null {
  const [side, cube] = readLengthUnit(asked) === "ft" ? ["[ft_i]", "[cft_i]"] : ["m", "m3"];
  const volume = asked.number("volume", [1e-3, 1e8], "", (text) => writtenIn(text, cube!));
  const area = asked.number("area", AREA);
  const [length, width, height] = (["length", "width", "height"] as const).map((name) =>
    asked.number(name, SIDE, "", (text) => writtenIn(text, side!)),
  );
  const sides = asked.holds(["length", "width"]);
  if (asked.texts.volume !== undefined) {
    if (sides || asked.holds(["area", "height"])) {
      asked.complain("volume", "Give either the volume or the sides, and clear the other.");
    }
    return volume ?? null;
  }
  if (asked.texts.area !== undefined) {
    if (sides) asked.complain("area", "Give either the floor’s area or its length and width, and clear the other.");
    need(asked, "height");
    return area !== undefined && height !== undefined ? area * height : null;
  }
  if (!sides && asked.texts.height === undefined) {
    asked.complain("length", "The size of the room is needed: its sides, its floor and height, or its volume.");
    return null;
  }
  for (const side of ["length", "width", "height"]) need(asked, side);
  return length !== undefined && width !== undefined && height !== undefined ? length * width * height : null;
}

function need(asked: Asked, side: string): void {
  if (asked.texts[side] === undefined) asked.complain(side, `The ${side} is missing.`);
}
