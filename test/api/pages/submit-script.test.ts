import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { browserModule, modulesOf } from "../../support/browser-module.ts";
import { startInProcess } from "../../support/in-process.ts";

const root = join(import.meta.dirname, "../../..");
const ENGINES =
  /\bMath\.(exp|expm1|log|log1p|log2|log10|pow|sin|cos|tan|a(?:sin|cos|tan)h?|atan2|sinh|cosh|tanh|cbrt)\b/;

describe("the script of the page where a test is added", () => {
  test("is at most 80 KB over the wire", async () => {
    expect(gzipSync(await browserModule("submit.ts"), { level: 9 }).length).toBeLessThanOrEqual(80_000);
  });

  test("analyses by the server's own code, without its schemas, its database or its HTTP", async () => {
    const modules = await modulesOf("analyse-in-browser.ts");
    expect(modules).toContain("analysis/analyse-trial.ts");
    expect(modules).toContain("analysis/reading/read-log.ts");
    expect(modules).toContain("api/trial-input.ts");
    const packages = modules.filter((path) => path.startsWith("node_modules/")).map((path) => path.split("/")[1]);
    expect([...new Set(packages)].sort()).toEqual(["canonicalize", "pure-rand"]);
  });

  test("leaves no digit of an analysis to the engine", async () => {
    const modules = (await modulesOf("analyse-in-browser.ts")).filter((path) => path.startsWith("analysis/"));
    expect(modules.length).toBeGreaterThan(60);
    const code = (path: string) => readFileSync(join(root, path), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
    expect(modules.filter((path) => ENGINES.test(code(path)))).toEqual([]);
  });

  test("is asked for by its page alone, under the address of its content, and kept for good", async () => {
    const target = await startInProcess();
    const page = await (await target.request("/submit")).text();
    const address = /<script type="module" src="([^"]+)"/.exec(page)?.[1];
    expect(address).toMatch(/^\/submit\.js\?v=[0-9a-f]{12}$/);
    const current = await target.request(address!);
    expect(current.headers.get("Content-Type")).toBe("text/javascript; charset=utf-8");
    expect(current.headers.get("Cache-Control")).toBe("public, max-age=31536000, immutable");
    const outdated = await target.request("/submit.js?v=000000000000");
    expect(outdated.headers.get("Cache-Control")).toBe("no-cache");
    expect(await outdated.text()).toBe(target.deps.submitScript);
    for (const path of ["/", "/plan", "/method"]) {
      expect(await (await target.request(path)).text()).not.toContain("<script");
    }
    await target.stop();
  });
});
