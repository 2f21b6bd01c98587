import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { EXAMPLE_SERVICE } from "../../../api/pages/texts/programs/examples.ts";
import type { OpenApiDocument } from "../../../api/pages/texts/programs/openapi-document.ts";
import { operationId } from "../../../api/pages/texts/programs/reference.tsx";
import type { AnalysisOut } from "../../../api/wire/analysis.ts";
import type { StoredTrial } from "../../support/client.ts";
import { type Target, targets } from "../../support/targets.ts";
import { all, type Element, one, parseHtml, words } from "./html-tree.ts";

const run = promisify(execFile);
const isThere = (program: string) =>
  run(program, ["--version"]).then(
    () => true,
    () => false,
  );
const [hasCurl, hasPython] = await Promise.all([isThere("curl"), isThere("python3")]);

/** What the simulated cleaner of the sample log moves, m³/h. */
const TRUTH = 260;

let target: Target & { readonly url: string };
let text: string;
let root: Element;
let folder: string;
beforeAll(async () => {
  target = (await targets()
    .find(({ name }) => name === "node server")!
    .start()) as typeof target;
  text = await (await target.request("/programs")).text();
  root = parseHtml(text);
  folder = await mkdtemp(join(tmpdir(), "motefall-examples-"));
  const log = await readFile(join(import.meta.dirname, "../../../seed/sample-log.csv"), "utf8");
  await writeFile(join(folder, "log.csv"), log);
  await writeFile(join(folder, "trial.json"), exactly("trial-json"));
  await writeFile(join(folder, "lines.txt"), counterLines(log));
});
afterAll(async () => {
  await target.stop();
  await rm(folder, { recursive: true });
});

/** The text of a listing of the page, character by character. */
function exactly(id: string): string {
  const letters = (each: Element | string): string =>
    typeof each === "string" ? each : each.children.map(letters).join("");
  return letters(one(root, ({ attributes }) => attributes.id === id));
}

const here = (example: string) => example.replaceAll(EXAMPLE_SERVICE, target.url);

/** The sample log as the invented counter of the page writes it to its port. */
function counterLines(csv: string): string {
  const rows = csv.split("\n").filter((line) => /^\d/.test(line));
  return rows
    .map((row) => row.split(","))
    .map(([t, fine, coarse]) => `T=${t} N0.3=${fine} N1.0=${coarse}\n`)
    .join("");
}

async function shell(script: string): Promise<string> {
  return (await run("bash", ["-e", "-c", here(script)], { cwd: folder })).stdout;
}

function holdsTruth({ cadr }: AnalysisOut["results"][number]): boolean {
  return cadr.low < TRUTH && TRUTH < cadr.high;
}

describe.skipIf(!hasCurl)("the calls by curl, as printed (skipped without curl)", () => {
  test("the shortest one analyses a log", async () => {
    const { results } = JSON.parse(await shell(exactly("curl-analyse"))) as AnalysisOut;
    expect(results[0]!.band.name).toBe("0.1-1.0");
    expect(results[0]!.cadr.unit).toBe("m3/h");
    expect(holdsTruth(results[0]!)).toBe(true);
  });

  test("a key is made and a trial stored; its readings come back as CSV, and its rate can be checked by hand", async () => {
    const answer = await shell(exactly("curl-store"));
    expect(answer).toMatch(/^keep this key: mote_\w+\n\{/);
    const trial = JSON.parse(answer.slice(answer.indexOf("\n"))) as StoredTrial;
    expect(trial.invented).toBe(true);
    const listed = await (await target.request(`/v1/trials/${trial.id}`)).json();
    expect(listed).toMatchObject({ id: trial.id, state: "listed", setting: "full" });

    const { total } = trial.analysis.results.find(({ band }) => band.kind === "channel")!;
    const csv = await (await target.request(`/v1/trials/${trial.id}/runs/0/series.csv`)).text();
    const rows = csv.split("\n").map((each) => each.split(",").map(Number));
    const window = rows.filter(([t]) => t! >= total.window.from && t! <= total.window.to);
    const clean = rows.filter(([t]) => t! < 280).map(([, counts]) => counts!); // before the aerosol
    const median = clean.sort((x, y) => x - y)[Math.floor(clean.length / 2)]!;
    // E1 of the page: the background that was fitted, or the clean air before the test.
    expect(Math.abs(rateByHand(window, total.background.value) / total.k.value - 1)).toBeLessThan(0.02);
    expect(Math.abs(rateByHand(window, median) / total.log_linear!.k - 1)).toBeLessThan(0.005);
  });
});

/** C200 and E2 of the page, down to 5 % of the start. */
function rateByHand(rows: readonly number[][], background: number): number {
  const above = rows.map(([t, counts]) => [t!, counts! - background] as const);
  const end = above.findIndex(([, counts]) => counts < 0.05 * above[0]![1]);
  expect(end).toBeGreaterThan(20);
  return -3600 * slope(above.slice(0, end).map(([t, counts]) => [t, Math.log(counts)]));
}

/** SLOPE(y; x). */
function slope(points: readonly (readonly [x: number, y: number])[]): number {
  const mean = (of: 0 | 1) => points.reduce((sum, point) => sum + point[of], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const sum = (of: (point: readonly [number, number]) => number) => points.reduce((total, p) => total + of(p), 0);
  return sum(([px, py]) => (px - x) * (py - y)) / sum(([px]) => (px - x) ** 2);
}

describe("the script", () => {
  test("has fifteen lines, and the lines of the counter are those it reads", async () => {
    expect(exactly("python-script").split("\n")).toHaveLength(15);
    expect(await readFile(join(folder, "lines.txt"), "utf8")).toContain(exactly("counter-lines"));
  });

  test.skipIf(!hasPython)(
    "reads a counter's lines, some broken, and prints an interval (skipped without python3)",
    async () => {
      await writeFile(join(folder, "send.py"), here(exactly("python-script")));
      const lines = await readFile(join(folder, "lines.txt"), "utf8");
      await writeFile(join(folder, "port.txt"), `3=3.01 N1.0=0.4\n\n${lines}T=99`);
      const { stdout } = await run("python3", ["send.py", "port.txt"], { cwd: folder });
      const [, low, high] = /^0\.1-1\.0 (\d+) to (\d+) m3\/h$/m.exec(stdout)!.map(Number);
      expect(low!).toBeLessThan(TRUTH);
      expect(high!).toBeGreaterThan(TRUTH);
    },
  );
});

describe("the reference", () => {
  let document: OpenApiDocument;
  beforeAll(async () => {
    document = (await (await target.request("/openapi.json")).json()) as OpenApiDocument;
  });

  test("holds every call with its parameters, bodies and answers", () => {
    const sections = new Map(
      all(root, "section").flatMap((section) => {
        const [heading] = all(section, "h3");
        return heading ? [[heading.attributes.id!, section] as const] : [];
      }),
    );
    const calls = Object.entries(document.paths).flatMap(([path, operations]) =>
      Object.entries(operations).map(([method, operation]) => ({ path, method, operation })),
    );
    expect(calls.length).toBeGreaterThan(20);
    for (const { path, method, operation } of calls) {
      const section = sections.get(operationId(method, path))!;
      const said = words(section);
      expect(said.startsWith(`${method.toUpperCase()} ${path}`)).toBe(true);
      expect(said).toContain(operation.summary!);
      const codes = all(section, "code").map(words);
      const named = [
        ...(operation.parameters ?? []).map(({ name }) => name),
        ...Object.keys(operation.requestBody?.content ?? {}),
      ];
      expect(named.filter((name) => !codes.includes(name))).toEqual([]);
      expect(Object.keys(operation.responses).filter((status) => !said.includes(status))).toEqual([]);
      expect(said.includes("Needs a key")).toBe((operation.security?.length ?? 0) > 0);
    }
  });

  test("holds every schema with each of its fields", () => {
    const byId = new Map(
      all(root, "details").flatMap((each) =>
        all(each, ({ attributes }) => "id" in attributes).map((inside) => [inside.attributes.id!, inside] as const),
      ),
    );
    for (const [name, schema] of Object.entries(document.components.schemas)) {
      const codes = all(byId.get(`schema-${name}`)!, "code").map(words);
      expect(Object.keys(schema.properties ?? {}).filter((field) => !codes.includes(field))).toEqual([]);
    }
  });

  test("comes with the page in under 100 KB, without a script", () => {
    expect(gzipSync(text).length).toBeLessThan(100_000);
    expect(all(root, "script")).toEqual([]);
  });
});
