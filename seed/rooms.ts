import { givenVolume, type RoomVolume, rectangularVolume } from "../analysis/room-volume.ts";
import { createRandom } from "../analysis/simulate/random.ts";

export type Handle = "tidemark-pottery" | "low-tide-press" | "net-loft" | "attic-no-9" | "slipway-coop";
export type RoomKey = "wheel room" | "print room" | "net loft" | "box room" | "slipway hall";

/** An invented room: as its owner states it, and as it truly is. */
export interface DemoRoom {
  readonly owner: Handle;
  /** Label and volume as the API takes them. */
  readonly words: Readonly<Record<string, unknown>>;
  readonly stated: RoomVolume["volumeM3"];
  readonly trueVolumeM3: number;
  /** Natural loss of 0.3–1.0 µm with everything shut and no fan. */
  readonly kNaturalPerH: number;
}

const m = (value: number) => ({ value, unit: "m" });
const m3 = (value: number, u?: number) => ({ value, unit: "m3", ...(u === undefined ? {} : { u }) });

/** Rooms of one owner each. The pottery's shelves and the wheels displace air. */
export const ROOMS: Readonly<Record<RoomKey, DemoRoom>> = {
  "wheel room": measured("tidemark-pottery", "wheel room", [5.6, 4.4, 2.7], 2.5, 0.45, 1),
  "print room": given("low-tide-press", "print room", 31.2, 0.6, 0.38, 2),
  "net loft": given("net-loft", "net loft", 47, 1.2, 0.62, 3),
  "box room": measured("attic-no-9", "box room", [2.1, 1.9, 2.3], null, 0.9, 4),
  "slipway hall": measured("slipway-coop", "slipway hall", [7.2, 4.2, 2.8], null, 0.3, 5),
};

function measured(
  owner: Handle,
  label: RoomKey,
  [length, width, height]: readonly [number, number, number],
  displaced: number | null,
  kNaturalPerH: number,
  stream: number,
): DemoRoom {
  const side = (value: number) => ({ value, u: null });
  const { volumeM3 } = rectangularVolume(
    [side(length), side(width), side(height)],
    displaced === null ? null : side(displaced),
  );
  const words = {
    label,
    length: m(length),
    width: m(width),
    height: m(height),
    ...(displaced === null ? {} : { displaced_volume: m3(displaced) }),
  };
  return { owner, words, stated: volumeM3, trueVolumeM3: trueOf(volumeM3, stream), kNaturalPerH };
}

function given(
  owner: Handle,
  label: RoomKey,
  value: number,
  u: number,
  kNaturalPerH: number,
  stream: number,
): DemoRoom {
  const { volumeM3 } = givenVolume({ value, u });
  return {
    owner,
    words: { label, volume: m3(value, u) },
    stated: volumeM3,
    trueVolumeM3: trueOf(volumeM3, stream),
    kNaturalPerH,
  };
}

/** Nobody knows a room's volume: the true one lies off the stated one by a draw from its standard uncertainty. */
function trueOf({ value, u }: RoomVolume["volumeM3"], stream: number): number {
  return value + u * createRandom(20_260_101, stream).normal();
}
