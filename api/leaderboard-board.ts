import { interval95 } from "../analysis/estimate.ts";
import { intervalAt, type PartRelative, wholeDof } from "../analysis/pooling/part-relative.ts";
import { familyFor, simultaneousTail } from "../analysis/ranks.ts";
import { tQuantile } from "../analysis/student-t.ts";
import type { Basis } from "../db/entries.ts";
import type { Band, StandingFigures } from "../db/leaderboard.ts";
import { AEROSOL_KINDS } from "./wire/leaderboard.ts";

/** Kept as doubles, one array each; NaN where there is none. */
const FIGURES = [
  "cadrM3PerH",
  "u",
  "dof",
  "relativeU",
  "low",
  "high",
  "predictionU",
  "predictionDof",
  "predictionRelativeU",
  /** The interval that holds at once with those of all other entries. */
  "simultaneousLow",
  "simultaneousHigh",
  /** NaN with a high end is a bound. */
  "noiseDb",
  "noiseLowDb",
  "noiseHighDb",
  "powerW",
  "cost",
] as const;
type Figures = Record<(typeof FIGURES)[number], Float64Array>;

/** What an entry is, one bit each. */
export const COMMERCIAL = 1;
export const INVENTED = 2;
/** It rests on one trial, and that without a natural loss of the same room and day. */
export const SINGLE_UNPAIRED = 4;

/**
 * The entries of a band on a basis as columns of numbers, in reach of one pass: about 150 bytes an entry. A row keeps its
 * place for good; `order` lists those that stand, strongest first, equals by id.
 */
export class Board {
  readonly band: Band;
  readonly basis: Basis;
  readonly ids: string[] = [];
  readonly figures = Object.fromEntries(FIGURES.map((name) => [name, new Float64Array(0)])) as Figures;
  seqs = new Uint32Array(0);
  rooms = new Uint32Array(0);
  flags = new Uint8Array(0);
  /** Bit i: some trial used AEROSOL_KINDS[i]. */
  aerosols = new Uint16Array(0);
  /** Place in `currencies`; 0 is none. */
  currency = new Uint16Array(0);
  readonly currencies: string[] = [""];
  order = new Uint32Array(0);
  /** Counts its changes: what was worked out of it before is old. */
  version = 0;
  /** The last event it knows of. */
  seq = 0;
  /** The last event that changed what it shows. */
  lastSeq = 0;
  private family = 0;
  private readonly factors = new Map<string, number>();
  private readonly rowOf = new Map<string, number>();

  constructor(band: Band, basis: Basis) {
    this.band = band;
    this.basis = basis;
  }

  /** Makes room at once, so that loading leaves no smaller arrays behind. */
  reserve(rows: number): void {
    if (rows > this.flags.length) this.grow(rows);
  }

  /**
   * Takes in rows that come in order after all that stand: what loading a board is made of. One that moved down meanwhile
   * comes twice, and its new figures come once more with the events after the loading began.
   */
  append(rows: readonly StandingFigures[]): void {
    const added = rows.filter(({ entry }) => !this.rowOf.has(entry));
    const from = this.order.length;
    this.reserve(this.ids.length + added.length);
    const hasRoom = this.order.buffer.byteLength === 4 * this.flags.length;
    const room = hasRoom ? new Uint32Array(this.order.buffer) : grown(this.order, new Uint32Array(this.flags.length));
    for (const [i, row] of added.entries()) {
      const at = this.place(row.entry);
      this.write(at, row);
      room[from + i] = at;
    }
    this.order = room.subarray(0, from + added.length);
    this.keepSimultaneous(this.order.subarray(from));
  }

  /** Takes in new figures of entries; those without a value stand no longer. */
  apply(changed: readonly StandingFigures[]): void {
    const touched = new Set<number>();
    const standing: number[] = [];
    for (const row of changed) {
      const at = this.place(row.entry);
      this.lastSeq = Math.max(this.lastSeq, row.seq, row.reworded ?? 0);
      if (touched.has(at)) continue;
      touched.add(at);
      if (row.cadrM3PerH === null) continue;
      this.write(at, row);
      standing.push(at);
    }
    standing.sort((a, b) => this.compare(a, b));
    this.order = this.merge(
      this.order.filter((at) => !touched.has(at)),
      standing,
    );
    this.keepSimultaneous(standing);
  }

  /** Simultaneous intervals of new rows; of all where the family they belong to changed. */
  private keepSimultaneous(added: ArrayLike<number>): void {
    const family = familyFor(this.order.length);
    const rows = family === this.family ? added : this.order;
    for (let i = 0; i < rows.length; i++) this.setSimultaneous(rows[i]!, family);
    this.family = family;
    this.version++;
  }

  /** The figures of a row that another laboratory's result is expected from. */
  predictionAt(at: number): PartRelative {
    const { cadrM3PerH, predictionU, predictionDof, predictionRelativeU } = this.figures;
    return {
      value: cadrM3PerH[at]!,
      u: predictionU[at]!,
      dof: predictionDof[at]!,
      relativeU: predictionRelativeU[at]!,
    };
  }

  private setSimultaneous(at: number, family: number): void {
    const { cadrM3PerH, u, dof, relativeU, simultaneousLow, simultaneousHigh } = this.figures;
    const cadr = { value: cadrM3PerH[at]!, u: u[at]!, dof: dof[at]!, relativeU: relativeU[at]! };
    const { low, high } = intervalAt(cadr, this.factorAt(cadr.dof, family));
    simultaneousLow[at] = low;
    simultaneousHigh[at] = high;
  }

  /** t of the simultaneous interval: few degrees of freedom occur, and each is worked out once. */
  private factorAt(dof: number, family: number): number {
    const whole = wholeDof(dof);
    const key = `${whole} ${family}`;
    const known = this.factors.get(key);
    if (known !== undefined) return known;
    const factor = -tQuantile(simultaneousTail(family), whole);
    this.factors.set(key, factor);
    return factor;
  }

  private place(entry: string): number {
    const known = this.rowOf.get(entry);
    if (known !== undefined) return known;
    const at = this.ids.length;
    this.ids.push(entry);
    this.rowOf.set(entry, at);
    if (at >= this.flags.length) this.grow(Math.max(16, Math.ceil(1.25 * at)));
    return at;
  }

  private write(at: number, row: StandingFigures): void {
    const { figures } = this;
    figures.cadrM3PerH[at] = row.cadrM3PerH ?? Number.NaN;
    figures.u[at] = row.u ?? Number.NaN;
    figures.dof[at] = row.dof ?? Infinity;
    figures.relativeU[at] = row.relativeU ?? 0;
    figures.low[at] = row.low ?? Number.NaN;
    figures.high[at] = row.high ?? Number.NaN;
    figures.predictionU[at] = row.predictionU ?? Number.NaN;
    figures.predictionDof[at] = row.predictionDof ?? Infinity;
    figures.predictionRelativeU[at] = row.predictionRelativeU ?? 0;
    const level =
      row.noiseU === null ? null : interval95({ value: row.noiseDb!, u: row.noiseU, dof: row.noiseDof ?? Infinity });
    figures.noiseDb[at] = level ? row.noiseDb! : Number.NaN;
    figures.noiseLowDb[at] = level?.low ?? -Infinity;
    figures.noiseHighDb[at] = level?.high ?? row.noiseDb ?? Number.NaN;
    figures.powerW[at] = row.powerW ?? Number.NaN;
    figures.cost[at] = row.cost ?? Number.NaN;
    this.seqs[at] = row.seq;
    this.rooms[at] = row.rooms;
    const single = row.trials === 1 && row.unpaired === 1;
    this.flags[at] =
      (row.kind === "commercial" ? COMMERCIAL : 0) | (row.invented ? INVENTED : 0) | (single ? SINGLE_UNPAIRED : 0);
    this.aerosols[at] = Object.keys(JSON.parse(row.aerosolsJson) as object).reduce(
      (bits, kind) => bits | (1 << AEROSOL_KINDS.indexOf(kind as (typeof AEROSOL_KINDS)[number])),
      0,
    );
    this.currency[at] = row.currency === null ? 0 : this.currencyPlace(row.currency);
  }

  private currencyPlace(code: string): number {
    const known = this.currencies.indexOf(code);
    return known >= 0 ? known : this.currencies.push(code) - 1;
  }

  private compare(a: number, b: number): number {
    const cadr = this.figures.cadrM3PerH;
    return cadr[b]! - cadr[a]! || (this.ids[a]! < this.ids[b]! ? -1 : 1);
  }

  private merge(before: Uint32Array, added: readonly number[]): Uint32Array<ArrayBuffer> {
    const merged = new Uint32Array(before.length + added.length);
    let i = 0;
    let j = 0;
    for (let k = 0; k < merged.length; k++) {
      const takeAdded = j < added.length && (i >= before.length || this.compare(added[j]!, before[i]!) < 0);
      merged[k] = takeAdded ? added[j++]! : before[i++]!;
    }
    return merged;
  }

  private grow(length: number): void {
    for (const name of FIGURES) this.figures[name] = grown(this.figures[name], new Float64Array(length));
    this.seqs = grown(this.seqs, new Uint32Array(length));
    this.rooms = grown(this.rooms, new Uint32Array(length));
    this.flags = grown(this.flags, new Uint8Array(length));
    this.aerosols = grown(this.aerosols, new Uint16Array(length));
    this.currency = grown(this.currency, new Uint16Array(length));
  }
}

function grown<T extends { set(from: ArrayLike<number>): void }>(from: ArrayLike<number>, into: T): T {
  into.set(from);
  return into;
}
