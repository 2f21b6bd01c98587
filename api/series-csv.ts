import Papa from "papaparse";
import type { Series } from "../analysis/trial.ts";

/** A series as CSV: `t_s`, then each channel with its unit; an empty cell where a value is missing. */
export function seriesCsv({ tS, channels }: Pick<Series, "tS" | "channels">): string {
  const names = ["t_s", ...channels.map(({ id, unit }) => (/[([]/.test(id) ? id : `${id} [${unit}]`))];
  const cell = (value: number) => (Number.isFinite(value) ? value : null);
  const rows = Array.from(tS, (t, row) => [cell(t), ...channels.map(({ values }) => cell(values[row]!))]);
  // escapeFormulae: a channel's name comes from a stranger and may be opened in a spreadsheet
  return `${Papa.unparse([names], { escapeFormulae: true, newline: "\n" })}\n${Papa.unparse(rows, { newline: "\n" })}\n`;
}
