import type { Channel, Series } from "../analysis/trial.ts";
import { canonicalJson, sha256Hex } from "../db/content-hash.ts";

/** A series as it is stored: a JSON header, and columns of little-endian float64, time first, NaN where missing. */
export interface SeriesBlob {
  readonly sha256: string;
  readonly rows: number;
  readonly channelsJson: string;
  readonly bytes: Uint8Array;
}

type ChannelHeader = Omit<Channel, "values">;

/** Packs a series; the hash covers header and columns, so a changed unit is a changed series. */
export async function packSeries(series: Pick<Series, "tS" | "channels">): Promise<SeriesBlob> {
  const rows = series.tS.length;
  const view = new DataView(new ArrayBuffer(8 * rows * (1 + series.channels.length)));
  [series.tS, ...series.channels.map(({ values }) => values)].forEach((column, at) => {
    // setFloat64 writes NaN's one canonical pattern, so equal series have equal bytes
    for (let row = 0; row < rows; row++) view.setFloat64(8 * (at * rows + row), column[row]!, true);
  });
  const bytes = new Uint8Array(view.buffer);
  const channelsJson = canonicalJson(series.channels.map(({ values: _, ...header }): ChannelHeader => header));
  return { sha256: await sha256Hex(`${channelsJson}\n${await sha256Hex(bytes)}`), rows, channelsJson, bytes };
}

/** Unpacks what `packSeries` packed. */
export function unpackSeries(
  blob: Pick<SeriesBlob, "rows" | "channelsJson" | "bytes">,
): Pick<Series, "tS" | "channels"> {
  const { rows, bytes } = blob;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const column = (at: number) =>
    Float64Array.from({ length: rows }, (_, row) => view.getFloat64(8 * (at * rows + row), true));
  const headers = JSON.parse(blob.channelsJson) as ChannelHeader[];
  return { tS: column(0), channels: headers.map((header, i) => ({ ...header, values: column(i + 1) })) };
}
