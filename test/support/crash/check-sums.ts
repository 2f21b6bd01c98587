import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";

/** What is wrong with one dump, by its SHA256SUMS alone and by the last line of each table. */
export async function checkSums(dump: string): Promise<string[]> {
  return ["open", "kept"].flatMap((place) => {
    const sums = join(dump, place, "SHA256SUMS");
    if (!existsSync(sums)) return [`${sums} is missing`];
    const listed = new Map(
      readFileSync(sums, "utf8")
        .trim()
        .split("\n")
        .map((line) => line.split("  ").reverse() as [string, string]),
    );
    const names = readdirSync(join(dump, place)).filter((name) => name !== "SHA256SUMS");
    const wrong = [...listed.keys()].filter((name) => !names.includes(name)).map((name) => `${name} is missing`);
    for (const name of names) {
      const bytes = readFileSync(join(dump, place, name));
      if (createHash("sha256").update(bytes).digest("hex") !== listed.get(name)) wrong.push(`${name} is damaged`);
      else if (name.endsWith(".gz")) {
        const text = gunzipSync(bytes).toString();
        if (text !== "" && !text.endsWith("\n")) wrong.push(`${name} breaks off`);
      }
    }
    return wrong.map((words) => `${dump}/${place}: ${words}`);
  });
}
