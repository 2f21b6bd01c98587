import { expect, test } from "vitest";
import { coverageFactor95 } from "../../../analysis/estimate.ts";
import { laboratoriesOf } from "../../../analysis/pooling/laboratory.ts";
import type { Member } from "../../../analysis/pooling/member.ts";
import { roomCadr } from "../../../analysis/pooling/room-cadr.ts";

const member = (trial: string, room: string, perH: number, volumeU = 0.9): Member => ({
  trial,
  submitter: "sub-a",
  room,
  volumeM3: { value: 30, u: volumeU, dof: Infinity },
  kDifferencePerH: { value: perH, u: 0.2, dof: 40 },
  natural: { perH: 0.4, u: 0.05, run: null },
});

test("a laboratory of one room is that room", () => {
  const [only] = laboratoriesOf([member("a", "one", 8.1), member("b", "one", 7.8)], 240);
  const { value, u, dof, relativeU } = roomCadr(only!.rooms[0]!, 240);
  expect(value).toBeCloseTo(only!.cadrM3PerH.value, 10);
  expect(u).toBeCloseTo(only!.cadrM3PerH.u, 10);
  expect(dof).toBeCloseTo(only!.cadrM3PerH.dof, 6);
  expect(relativeU).toBeCloseTo(0.03, 12);
});

test("a laboratory of two rooms lies between them, by the weights it has", () => {
  const [both] = laboratoriesOf([member("a", "one", 8.1), member("b", "two", 7.2, 0.3)], 230);
  const rooms = both!.rooms.map((room) => roomCadr(room, 230));
  const mean = rooms.reduce((sum, { value }, i) => sum + both!.weights[i]! * value, 0);
  expect(mean).toBeCloseTo(both!.cadrM3PerH.value, 10);
  const raw = rooms.map(({ u }) => 1 / u ** 2);
  expect(both!.weights[0]! / both!.weights[1]!).toBeCloseTo(raw[0]! / raw[1]!, 10);
});

test("with a volume that is known the interval is that of the rates", () => {
  const [only] = laboratoriesOf([member("a", "one", 8, 0)], 240);
  const { value, u, low, high, dof } = roomCadr(only!.rooms[0]!, 240);
  expect(high - value).toBeCloseTo(coverageFactor95(dof) * u, 9);
  expect(value - low).toBeCloseTo(high - value, 9);
});
