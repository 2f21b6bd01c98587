import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { AnalysisOut, BandResultOut } from "../../api/wire/analysis.ts";
import { problemOf } from "../support/client.ts";
import { type Target, targets } from "../support/targets.ts";

/*
 * Open decay logs by robwiss, 2022 (MIT), recorded in a tent of 4.153 m³; read where they are, never copied. `rough_fit` is a
 * two-segment estimate made outside this project; the author's own CADR are 354.12, 363.16 and 362.38 cfm.
 */
const folder = join(import.meta.dirname, "../../../shared/real");
const present = existsSync(folder);
const AUTHOR_CFM = [354.12, 363.16, 362.38];
const M3_PER_H = 1.69901; // per cfm

interface Logged {
  readonly file: string;
  readonly rough_fit?: { readonly k_on_per_h: number };
}
const manifest: Logged[] = present ? JSON.parse(readFileSync(join(folder, "MANIFEST.json"), "utf8")) : [];
const fitted = manifest.filter(({ file, rough_fit }) => rough_fit && !file.includes("truncated"));
const PM25 = ["c1/pm2.5", "c1/mPM2.5"];

describe.skipIf(!present)("real logs, sent over HTTP as CSV with nothing but the volume", () => {
  let target: Target;
  beforeAll(async () => {
    target = await targets()
      .find(({ name }) => name === "node server")!
      .start();
  });
  afterAll(() => target?.stop());

  function send(files: Record<string, string>, fields: Record<string, string>): Promise<Response> {
    const form = new FormData();
    for (const [part, file] of Object.entries(files))
      form.set(part, new Blob([readFileSync(join(folder, file))]), file);
    for (const [name, value] of Object.entries(fields)) form.set(name, value);
    return target.request("/v1/analyses", { method: "POST", body: form });
  }

  async function pm25(answer: Response): Promise<BandResultOut> {
    const analysis = (await answer.json()) as AnalysisOut;
    expect([answer.status, answer.status === 200 ? "" : analysis]).toEqual([200, ""]);
    const result = analysis.results.find(({ band }) => PM25.includes(band.name));
    expect(result).toBeDefined();
    return result!;
  }

  test("there are seven of them", () => expect(fitted).toHaveLength(7));

  test.each(fitted.map(({ file, rough_fit }) => [file, rough_fit!.k_on_per_h] as const))(
    "%s: k_total is near the rough %f per hour",
    async (file, rough) => {
      const within = /^(slowfan|fanA)/.test(file) ? 0.1 : 0.2;
      const { total } = await pm25(await send({ file }, { volume: "4.153m3" }));
      expect(Math.abs(total.k.value / rough - 1)).toBeLessThan(within);
    },
  );

  test.each([1, 2, 3])("tableunit trial %i: CADR is near its author's", async (n) => {
    const trial = {
      room: { volume: { value: 4.153, unit: "m3" } },
      runs: [
        { role: "natural", file: "off" },
        { role: "total", file: "on" },
      ],
    };
    const files = { off: "tableunit_off_optical-c.csv", on: `tableunit_on_trial${n}_optical-c.csv` };
    const { cadr } = await pm25(await send(files, { trial: JSON.stringify(trial) }));
    expect(Math.abs(cadr.value / M3_PER_H / AUTHOR_CFM[n - 1]! - 1)).toBeLessThan(0.15);
  });

  test("a log cut off before the cleaner came on gives no result, and says why", async () => {
    const answer = await send({ file: "deskfan_s2_run3_truncated_optical-b.csv" }, { volume: "4.153m3" });
    const problem = await problemOf(answer, 422);
    expect(problem.code).toBe("no-result");
    expect(problem.refusals!.length).toBeGreaterThan(0);
  });
});
