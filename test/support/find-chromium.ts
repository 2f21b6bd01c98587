import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** Debian's chromium, undefined where it is not installed. */
export const chromiumPath = (process.env.PATH ?? "")
  .split(delimiter)
  .map((folder) => join(folder, "chromium"))
  .find(existsSync);
