/** Roles said once more, because some browsers forget those of a table whose rows are laid out as blocks. */
export const AS_TABLE = {
  table: { role: "table" },
  row: { role: "row" },
  head: { role: "columnheader", scope: "col" },
  rowHead: { role: "rowheader", scope: "row" },
  cell: { role: "cell" },
} as const;
