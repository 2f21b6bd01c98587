import { DRESSES, type Dress, toCsv } from "../analysis/simulate/to-csv.ts";
import type { Channel, Series } from "../analysis/trial.ts";

/** How a log is sent: as JSON columns in one of the three kinds of time, or as a file in some logger's dress. */
export type LogForm = "json" | "json_minutes" | "json_stamped" | keyof typeof FILES;

export interface WrittenLog {
  /** What stands in the run. */
  readonly words: Readonly<Record<string, unknown>>;
  readonly file: { readonly name: string; readonly text: string } | null;
  /** A time of the log in the log's own unit and origin, as marks are given. */
  readonly timeOf: (tS: number) => number | string;
}

/** Dresses, and whether the file says itself what its columns are, so that they can be left to be guessed. */
const FILES = {
  csv_telling: { dress: DRESSES.comma, telling: true },
  csv_telling_stamped: { dress: DRESSES.stamped, telling: true },
  csv_semicolon: { dress: DRESSES.semicolon, telling: false },
  csv_stamped: { dress: DRESSES.stamped, telling: false },
  csv_newest_first: { dress: { ...DRESSES.comma, delimiter: "\t", newestFirst: true }, telling: false },
} as const satisfies Record<string, { dress: Dress; telling: boolean }>;

/** Writes a log that began at `startMs`; `part` names its file in the form. */
export function writeLog(series: Series, form: LogForm, part: string, startMs: number): WrittenLog {
  if (form === "json" || form === "json_minutes" || form === "json_stamped") return asJson(series, form, startMs);
  const { dress, telling } = FILES[form];
  const stamped = dress.startMs !== null;
  const header = (channel: Channel, i: number) => (telling ? `${channel.id} (${channel.unit})` : `Channel ${i + 1}`);
  const headed = series.channels.map((channel, i) => ({ ...channel, id: header(channel, i) }));
  const text = toCsv({ ...series, channels: headed }, { ...dress, startMs: stamped ? startMs : null });
  const columns = {
    t: { column: dress.time, unit: stamped ? "datetime" : "s" },
    channels: series.channels.map((channel, i) => ({ column: header(channel, i), ...described(channel) })),
  };
  return {
    words: { file: part, ...(telling ? {} : { columns }) },
    file: { name: `${part}.csv`, text },
    timeOf: stamped ? (tS) => stamp(startMs, tS) : (tS) => tS,
  };
}

function asJson({ tS, channels }: Series, form: "json" | "json_minutes" | "json_stamped", startMs: number): WrittenLog {
  const unit = form === "json" ? "s" : form === "json_minutes" ? "min" : "datetime";
  const timeOf = (t: number) => (unit === "s" ? t : unit === "min" ? Number((t / 60).toFixed(4)) : stamp(startMs, t));
  const series = {
    t: { unit, values: Array.from(tS, timeOf) },
    channels: channels.map((channel) => ({ ...described(channel), values: Array.from(channel.values) })),
  };
  return { words: { series }, file: null, timeOf };
}

function described({ id, quantity, unit, fromUm, toUm, cumulative }: Channel) {
  return { id, quantity, unit, from_um: fromUm, to_um: toUm, cumulative };
}

function stamp(startMs: number, tS: number): string {
  return new Date(startMs + 1000 * tS).toISOString();
}
