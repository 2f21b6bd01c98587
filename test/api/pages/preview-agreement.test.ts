import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Spread } from "../../../analysis/expected-elsewhere.ts";
import type { analyseInBrowser } from "../../../api/browser/analyse-in-browser.ts";
import type { AnalysisOut } from "../../../api/wire/analysis.ts";
import { findSpread } from "../../../db/spreads.ts";
import { whereTheyDiffer } from "../../support/agreeing.ts";
import { browserModule } from "../../support/browser-module.ts";
import { chromiumPath } from "../../support/find-chromium.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";

/* Open decay logs by robwiss, 2022 (MIT), read where they are, never copied. */
const folder = join(import.meta.dirname, "../../../../shared/real");
const present = existsSync(folder);
const logs = present ? readdirSync(folder).filter((file) => file.endsWith(".csv")) : [];

interface Sample {
  readonly trial: {
    readonly runs: readonly { readonly file: string; readonly role: string }[];
    readonly [field: string]: unknown;
  };
}

/** Each log with nothing but a volume, and as what it is; those that make one trial together. */
function samples(): [string, Sample][] {
  const tent = { volume: { value: 4.153, unit: "m3" } };
  const whole = logs.map((file): [string, Sample] => {
    return [file, { trial: { room: { volume: { value: 30, unit: "m3" } }, runs: [{ role: "full_log", file }] } }];
  });
  const single = logs.flatMap((file): [string, Sample][] => {
    const role = file.includes("_off_") ? "natural" : file.includes("_on_") ? "total" : null;
    return role ? [[`${file} as ${role}`, { trial: { room: tent, runs: [{ role, file }] } }]] : [];
  });
  const paired = [1, 2, 3].map((n): [string, Sample] => {
    const runs = [
      { role: "natural", file: "tableunit_off_optical-c.csv" },
      { role: "total", file: `tableunit_on_trial${n}_optical-c.csv` },
    ];
    return [`tableunit off and on ${n}`, { trial: { room: tent, runs } }];
  });
  return [...whole, ...single, ...(logs.length ? paired : [])];
}

type Answer = Awaited<ReturnType<typeof analyseInBrowser>>;

describe.skipIf(!present)("the preview and the server agree on every real log", () => {
  let server: InProcess;
  let spread: Spread;
  let script: string;
  const answers = new Map<string, { status: number; body: Record<string, unknown> }>();
  beforeAll(async () => {
    server = await startInProcess();
    const { relative, dof, source } = await findSpread(server.deps.db.read);
    spread = { relative, dof, source };
    script = await browserModule("analyse-in-browser.ts");
    for (const [name, { trial }] of samples()) {
      const form = new FormData();
      form.set("trial", JSON.stringify(trial));
      for (const { file } of trial.runs) form.set(file, new Blob([readFileSync(join(folder, file))]), file);
      const answer = await server.request("/v1/analyses", { method: "POST", body: form });
      answers.set(name, { status: answer.status, body: (await answer.json()) as Record<string, unknown> });
    }
  }, 120_000);
  afterAll(() => server?.stop());

  /** Every number and word of the answer, or of the refusal with what was found in spite of it. */
  function expectAgreement(name: string, made: Answer) {
    const { status, body } = answers.get(name)!;
    expect([200, 422]).toContain(status);
    expect(made).not.toBeNull();
    const { analysis, problem } = made!;
    if (status === 200) {
      expect(problem).toBeNull();
      expect(whereTheyDiffer(analysis, body)).toBeNull();
      expect((body as unknown as AnalysisOut).results.length).toBeGreaterThan(0);
      return;
    }
    expect(problem).toEqual({ code: body.code, detail: body.detail, errors: body.errors ?? [] });
    expect(body.code).toBe("no-result");
    const { refusals, naturals, dropped, phases, read } = body;
    const { method_version: _, volume: __, results: ___, ...found } = analysis!;
    expect(whereTheyDiffer(found, { refusals, naturals, dropped, phases, read })).toBeNull();
  }

  test("there are 16 logs, and some of them hold a result", () => {
    expect(logs).toHaveLength(16);
    const statuses = [...answers.values()].map(({ status }) => status);
    expect(statuses.filter((status) => status === 200).length).toBeGreaterThan(8);
  });

  test("as bundled and minified, under Node", async () => {
    const module = (await import(`data:text/javascript;base64,${Buffer.from(script).toString("base64")}`)) as {
      analyseInBrowser: typeof analyseInBrowser;
    };
    for (const [name, { trial }] of samples()) {
      const files = new Map(
        trial.runs.map(({ file }) => [file, { name: file, bytes: new Uint8Array(readFileSync(join(folder, file))) }]),
      );
      const { analysis, problem } = (await module.analyseInBrowser(trial, files, spread))!;
      expectAgreement(name, JSON.parse(JSON.stringify({ analysis, problem })) as Answer);
    }
  }, 120_000);

  describe.skipIf(!chromiumPath)("in Debian's chromium", () => {
    let browser: Browser;
    let page: Page;
    beforeAll(async () => {
      browser = await chromium.launch({ executablePath: chromiumPath!, args: ["--no-sandbox"] });
      page = await browser.newPage();
      // Answered here, without a network: an address of the loopback is a secure context.
      await page.route("http://127.0.0.1:1/**", (route) => {
        const path = new URL(route.request().url()).pathname;
        if (path === "/") return route.fulfill({ contentType: "text/html", body: "<!doctype html><title>x</title>" });
        if (path === "/analyse.js") return route.fulfill({ contentType: "text/javascript", body: script });
        return route.fulfill({ body: readFileSync(join(folder, path.slice(1))) });
      });
      await page.goto("http://127.0.0.1:1/");
    }, 60_000);
    afterAll(() => browser?.close());

    test.each(samples())("%s", async (name, { trial }) => {
      const made = await page.evaluate(`(${ANALYSE})(${JSON.stringify({ trial, spread })})`);
      expectAgreement(name, JSON.parse(made as string) as Answer);
    });
  });
});

/** Runs in the page: text, since nothing here is typed for a browser. */
const ANALYSE = `async ({ trial, spread }) => {
  const { analyseInBrowser } = await import("/analyse.js");
  const files = new Map();
  for (const { file } of trial.runs) {
    const bytes = new Uint8Array(await (await fetch("/" + file)).arrayBuffer());
    files.set(file, { name: file, bytes });
  }
  const { analysis, problem } = await analyseInBrowser(trial, files, spread);
  return JSON.stringify({ analysis, problem });
}`;
