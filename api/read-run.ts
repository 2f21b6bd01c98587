import type { ColumnsStated } from "../analysis/reading/columns-stated.ts";
import { type ColumnRead, readLog } from "../analysis/reading/read-log.ts";
import { ReadingError } from "../analysis/reading/reading-error.ts";
import { inTimeOrder, type TimeScale, timeToSeconds } from "../analysis/reading/time-to-seconds.ts";
import type { Channel, Series } from "../analysis/trial.ts";
import { HOW_TO_STAY_UNDER, type UploadedFile } from "./body.ts";
import { invalid, RequestError } from "./problem.ts";
import type { ColumnsIn, SeriesIn } from "./wire/series.ts";
import { unitOrIssue } from "./wire/stated-quantity.ts";

/** A run's series as it was read, with what was made of it. */
export interface ReadRun {
  readonly series: Pick<Series, "tS" | "channels">;
  /** How the run's own times become seconds after its first row. */
  readonly scale: TimeScale;
  readonly startMs: number | null;
  /** What each column of a file was taken for; null where columns were sent as such. */
  readonly columns: readonly ColumnRead[] | null;
  readonly dropped: readonly { readonly reason: string; readonly count: number }[];
}

/** More channels than any counter has; each is fitted, so this bounds the time that one request takes. */
export const MAX_CHANNELS = 64;

type Path = readonly PropertyKey[];

/** Reads an uploaded log. @throws RequestError "invalid" with the reason, column and line */
export function readFileRun(file: UploadedFile, columns: ColumnsIn | undefined, path: Path): ReadRun {
  const read = pointed(path, () => readLog(file.bytes, columns && stated(columns)));
  const count = read.series.channels.length;
  if (count > MAX_CHANNELS) {
    throw invalid(
      path,
      `${count} columns look like channels; at most ${MAX_CHANNELS} are analysed: name them in columns.`,
    );
  }
  return read;
}

/** The wire's words for what a column holds, in the reader's. A unit left out is then guessed from the header. */
function stated({ t, channels }: ColumnsIn): ColumnsStated {
  return {
    t: t && { column: t.column, unit: t.unit, dayMonthOrder: t.day_month },
    channels: channels.map(({ column, id, quantity, unit, from_um, to_um, cumulative, ceiling }) => {
      return { column, id, quantity, unit, fromUm: from_um, toUm: to_um, cumulative, ceiling };
    }),
  };
}

/** Turns columns sent as JSON into a series in base units. @throws RequestError "invalid" */
export function readSeriesRun(sent: SeriesIn, path: Path): ReadRun {
  const rows = sent.t.values.length;
  const times = pointed([...path, "t"], () => timeToSeconds(sent.t.values, sent.t.unit));
  const ids = new Set<string>();
  const channels = sent.channels.map((channel, i): Channel => {
    const at = [...path, "channels", i];
    if (channel.values.length !== rows) {
      throw invalid([...at, "values"], `The time has ${rows} values, this channel has ${channel.values.length}.`);
    }
    if (ids.has(channel.id)) throw invalid([...at, "id"], `Two channels are named ${JSON.stringify(channel.id)}.`);
    ids.add(channel.id);
    if (channel.cumulative === "above" && channel.from_um == null) {
      throw invalid([...at, "from_um"], "A channel cumulative above a size needs that size.");
    }
    if (channel.cumulative === "below" && channel.to_um == null) {
      throw invalid([...at, "to_um"], "A channel cumulative below a size needs that size.");
    }
    if (channel.from_um != null && channel.to_um != null && channel.to_um <= channel.from_um) {
      throw invalid([...at, "to_um"], "The upper size must lie above the lower one.");
    }
    const toBase = converter(channel, [...at, "unit"]);
    const values = Float64Array.from(channel.values, (value) => (value === null ? Number.NaN : toBase.value(value)));
    return {
      id: channel.id,
      quantity: channel.quantity,
      unit: toBase.unit,
      fromUm: channel.from_um ?? null,
      toUm: channel.to_um ?? null,
      cumulative: channel.cumulative ?? "none",
      ceiling: channel.ceiling === undefined ? null : toBase.value(channel.ceiling),
      values: inTimeOrder(values, times),
    };
  });
  return { series: { tS: times.tS, channels }, scale: times.scale, startMs: times.startMs, columns: null, dropped: [] };
}

/** Raw counts keep their unit, since no other is known; number and mass go to 1/cm3 and ug/m3. */
function converter({ quantity, unit }: SeriesIn["channels"][number], path: Path) {
  if (quantity === "raw") return { unit: unit ?? "1", value: (x: number) => x };
  const dimension = quantity === "number" ? "number concentration" : "mass concentration";
  const base = quantity === "number" ? "1/cm3" : "ug/m3";
  const found = unitOrIssue(unit ?? base, dimension, (message) => {
    throw invalid(path, message);
  });
  return { unit: base, value: (x: number) => found!.toBase(x) };
}

/** Runs a reading step and says where in the request its refusal belongs. */
export function pointed<T>(path: Path, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    if (error.code === "too-large") throw new RequestError("too-large", `${error.message}. ${HOW_TO_STAY_UNDER}`);
    const where = [error.column && `column ${JSON.stringify(error.column)}`, error.line && `line ${error.line}`].filter(
      Boolean,
    );
    const message = `${error.message[0]?.toUpperCase()}${error.message.slice(1)}${where.length ? ` (${where.join(", ")})` : ""}.`;
    throw invalid(path, message);
  }
}
