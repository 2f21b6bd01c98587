import { createReadStream, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import type { Dump, Dumps } from "./dumps.ts";

/** The dumps in a folder of this machine, as `npm run dump` wrote them. Only what is open is given away. */
export function dumpsIn(folder: string): Dumps {
  return {
    list: async () => listDumps(folder),
    addressOf: () => null,
    async open(dump, file) {
      const known = listDumps(folder)
        .find(({ name }) => name === dump)
        ?.files.some(({ name }) => name === file);
      if (!known) return null; // a name from outside is never made a path before it is found in the list
      return Readable.toWeb(createReadStream(join(folder, dump, "open", file))) as ReadableStream<Uint8Array>;
    },
  };
}

/** Every whole dump in a folder, newest first. */
export function listDumps(folder: string): Dump[] {
  if (!existsSync(folder)) return [];
  const names = readdirSync(folder).filter(
    (name) => /^\d{8,}$/.test(name) && existsSync(join(folder, name, "open", "SHA256SUMS")),
  );
  return names.sort((a, b) => Number(b) - Number(a)).map((name) => readDump(folder, name));
}

function readDump(folder: string, name: string): Dump {
  const open = join(folder, name, "open");
  const { as_of, as_of_seq, method_version } = JSON.parse(readFileSync(join(open, "manifest.json"), "utf8")) as Dump;
  const sums = readFileSync(join(open, "SHA256SUMS"), "utf8").trim().split("\n");
  const files = sums.map((line) => {
    const [sha256, file] = line.split("  ") as [string, string];
    return { name: file, bytes: statSync(join(open, file)).size, sha256 };
  });
  return { name, as_of, as_of_seq, method_version, files };
}

/** The list of the dumps in a folder, for a server of files that others run. */
export function writeDumpsList(folder: string): void {
  writeFileSync(join(folder, "dumps.json"), `${JSON.stringify(listDumps(folder), null, 2)}\n`);
}
