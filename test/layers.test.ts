import { globSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "..");

/** What each folder may import: folders of the project, and packages. Arrows run api → db and api → analysis, never back. */
const MAY_IMPORT: Record<string, { folders: string[]; packages: RegExp }> = {
  analysis: { folders: ["analysis"], packages: /^pure-rand(\/.*)?$/ },
  db: { folders: ["db"], packages: /^(drizzle-orm|@libsql\/client|@noble\/hashes|canonicalize)(\/|$)|^node:/ },
  api: {
    folders: ["api", "db", "analysis"],
    packages:
      /^(hono|@hono\/zod-openapi|@hono\/node-server|papaparse|d3-scale|d3-shape|@resvg\/resvg-wasm)(\/|$)|^node:/,
  },
  seed: { folders: ["seed", "api", "db", "analysis"], packages: /^node:|^pure-rand/ },
};

/** Only these touch Node: everything else in api/ runs in the Worker too. */
const NODE_ONLY = /^(api\/node|db\/(dump\/|embedded|migrate)|seed\/)/;

/** The browser's script as text: only where a server or the Worker starts, since tests and jobs run without a build. */
const BUILT_SCRIPT = "../.build/submit.txt";
const SERVES = /^api\/worker\.ts$/;

/** Anything in analysis/ that would make its answer depend on more than what it is given. */
const IMPURE =
  /\b(Date\.now|new Date\(\)|Math\.random|process\.|performance\.|fetch\(|globalThis|crypto\.|setTimeout|console\.)/;

function importsOf(source: string): string[] {
  const withoutComments = source.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "");
  return [...withoutComments.matchAll(/(?:\bfrom\s+|\bimport\s+|\bimport\()\s*["']([^"']+)["']/g)].map(
    (match) => match[1]!,
  );
}

/** The complaint about one import, null where it is allowed. */
function complaint(file: string, imported: string): string | null {
  const folder = file.split("/")[0]!;
  const rule = MAY_IMPORT[folder]!;
  if (!imported.startsWith(".")) {
    if (imported.startsWith("node:") && !NODE_ONLY.test(file)) return `${file} imports ${imported}`;
    return rule.packages.test(imported) ? null : `${file} imports ${imported}`;
  }
  if (imported === BUILT_SCRIPT) return SERVES.test(file) ? null : `${file} imports ${imported}`;
  const target = relative(root, join(root, dirname(file), imported)).split("/")[0]!;
  return rule.folders.includes(target) ? null : `${file} imports ${imported}`;
}

describe("arrows run api → db and api → analysis, never back", () => {
  for (const folder of Object.keys(MAY_IMPORT)) {
    const files = globSync(`${folder}/**/*.{ts,tsx}`, { cwd: root });

    test(`${folder}/ imports what it may and nothing else`, () => {
      expect(files.length).toBeGreaterThan(0);
      const complaints = files.flatMap((file) =>
        importsOf(readFileSync(join(root, file), "utf8")).map((imported) => complaint(file, imported)),
      );
      expect(complaints.filter((each) => each !== null)).toEqual([]);
    });
  }

  test("analysis/ has no clock, no chance, no environment and no IO", () => {
    const impure = globSync("analysis/**/*.ts", { cwd: root }).filter((file) => {
      return IMPURE.test(readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, ""));
    });
    expect(impure).toEqual([]);
  });

  test.each([
    ["analysis/decay-fit.ts", 'import { Hono } from "hono";'],
    ["analysis/decay-fit.ts", 'import { words } from "../db/words.ts";'],
    ["analysis/decay-fit.ts", 'import { readFileSync } from "node:fs";'],
    ["analysis/decay-fit.ts", 'const fs = await import("node:fs");'],
    ["analysis/reading/read-log.ts", 'export * from "../../api/app.ts";'],
    ["db/words.ts", 'import type { Estimate } from "../analysis/estimate.ts";'],
    ["db/words.ts", 'import { Hono } from "hono";'],
    ["api/app.ts", 'import { readFileSync } from "node:fs";'],
  ])("would catch in %s: %s", (file, line) => {
    expect(importsOf(line).map((imported) => complaint(file, imported))).toEqual([expect.stringContaining(file)]);
  });
});

test("no source file is over 250 lines", () => {
  const long = globSync("{api,db,analysis,seed,test}/**/*.{ts,tsx}", { cwd: root }).filter(
    (file) => readFileSync(join(root, file), "utf8").split("\n").length > 251,
  );
  expect(long).toEqual([]);
});
