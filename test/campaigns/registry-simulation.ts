import type { Member } from "../../analysis/pooling/member.ts";
import type { Random } from "../../analysis/simulate/random.ts";

/** A configuration with its true clean air delivery rate and what its trials said. */
export interface SimulatedEntry {
  readonly trueM3PerH: number;
  readonly laboratories: number;
  readonly members: readonly Member[];
}

interface SimulatedRoom {
  readonly id: string;
  readonly trueM3: number;
  readonly statedM3: number;
  readonly u: number;
  /** What mixing and place make of any cleaner here, relative. */
  readonly effect: number;
}

interface SimulatedLaboratory {
  readonly id: string;
  /** What its counter makes of any cleaner, relative. */
  readonly effect: number;
  readonly rooms: readonly SimulatedRoom[];
}

/** Relative SDs between laboratories: of counters, of rooms, and of one cleaner in one room. Together 13 %. */
const COUNTER = 0.1;
const ROOM = 0.07;
const CLEANER_IN_ROOM = 0.05;

/**
 * A registry of cleaners between 40 and 700 m³/h, measured by some laboratories each, of which every one has a counter, one
 * or two rooms and an error of each room's volume in all that it does. Trials in a room often share a natural run. Fits are
 * good to 1.5–5 % of k_total, natural runs to 3–10 %, and the u stated for them is itself an estimate at few dof.
 */
export function simulateRegistry(laboratoriesOfEntries: readonly number[], many: number, random: Random) {
  const laboratories = Array.from({ length: many }, (_, i) => simulateLaboratory(`s${i}`, random));
  return laboratoriesOfEntries.map((count, i): SimulatedEntry => {
    const trueM3PerH = 40 * (700 / 40) ** random.uniform();
    const members = some(laboratories, count, random).flatMap((laboratory) =>
      laboratory.rooms
        .slice(0, random.uniform() < USE_BOTH ? 2 : 1)
        .flatMap((room) => simulateTrials(`e${i}`, trueM3PerH, laboratory, room, random)),
    );
    return { trueM3PerH, laboratories: count, members };
  });
}

/** Some laboratories have a second room, and some of these use both for a cleaner. */
const HAVE_TWO_ROOMS = 0.3;
const USE_BOTH = 0.4;

/** What another laboratory, drawn like these, is off by, relative. */
export function otherLaboratoryOff(random: Random): number {
  const rooms = random.uniform() < HAVE_TWO_ROOMS * USE_BOTH ? 2 : 1;
  return COUNTER * random.normal() + (Math.hypot(ROOM, CLEANER_IN_ROOM) / Math.sqrt(rooms)) * random.normal();
}

function simulateLaboratory(id: string, random: Random): SimulatedLaboratory {
  const rooms = Array.from({ length: random.uniform() < HAVE_TWO_ROOMS ? 2 : 1 }, (_, i): SimulatedRoom => {
    const trueM3 = 15 * (120 / 15) ** random.uniform();
    const relativeU = random.uniform() < 0.5 ? 0.02 : 0.05;
    const statedM3 = trueM3 * (1 + relativeU * random.normal());
    return { id: `${id}/${i}`, trueM3, statedM3, u: relativeU * statedM3, effect: ROOM * random.normal() };
  });
  return { id, effect: COUNTER * random.normal(), rooms };
}

function simulateTrials(
  entry: string,
  trueM3PerH: number,
  laboratory: SimulatedLaboratory,
  room: SimulatedRoom,
  random: Random,
): Member[] {
  const off = laboratory.effect + room.effect + CLEANER_IN_ROOM * random.normal();
  const added = (trueM3PerH * Math.max(0.1, 1 + off)) / room.trueM3;
  const naturalPerH = 0.2 + 0.6 * random.uniform();
  const shares = random.uniform() < 0.6;
  let natural = measure(naturalPerH, 0.03 + 0.07 * random.uniform(), random);
  return Array.from({ length: 1 + Math.floor(4 * random.uniform()) }, (_, i): Member => {
    if (i > 0 && !shares) natural = measure(naturalPerH, 0.03 + 0.07 * random.uniform(), random);
    const total = measure(added + naturalPerH, 0.015 + 0.035 * random.uniform(), random);
    const u = Math.hypot(total.u, natural.u);
    return {
      trial: `${entry}/${room.id}/${i}`,
      submitter: laboratory.id,
      room: room.id,
      volumeM3: { value: room.statedM3, u: room.u, dof: Infinity },
      kDifferencePerH: {
        value: total.value - natural.value,
        u,
        dof: u ** 4 / (total.u ** 4 / total.dof + natural.u ** 4 / natural.dof),
      },
      natural: { perH: natural.value, u: natural.u, run: `${entry}/${room.id}/natural/${shares ? 0 : i}` },
    };
  });
}

/** A rate with an error of relative SD, and an estimate of that SD with ν dof: û = u·√(χ²_ν/ν). */
function measure(trueValue: number, relativeU: number, random: Random) {
  const dof = 4 + Math.floor(30 * random.uniform());
  const chiSquare = Array.from({ length: dof }, () => random.normal() ** 2).reduce((a, b) => a + b, 0);
  const u = relativeU * trueValue;
  return { value: trueValue + u * random.normal(), u: u * Math.sqrt(chiSquare / dof), dof };
}

/** `count` of them without repeats (Fisher and Yates). */
function some<T>(all: readonly T[], count: number, random: Random): T[] {
  const left = [...all];
  return Array.from({ length: count }, () => left.splice(Math.floor(left.length * random.uniform()), 1)[0]!);
}
