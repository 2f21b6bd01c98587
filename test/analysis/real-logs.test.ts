import { existsSync, readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../analysis/analyse-trial.ts";
import { interval95 } from "../../analysis/estimate.ts";
import type { Channel, Role, Run } from "../../analysis/trial.ts";
import { channelOf, runOf, trialOf } from "./trial-of.ts";

// Open decay logs by robwiss, 2022 (MIT), recorded in a tent of 4.153 m³; read in place, skipped where they are not.
const FOLDER = "../shared/real";
const present = existsSync(`${FOLDER}/MANIFEST.json`);
const M3H_PER_CFM = 1.699010795;

interface Listed {
  readonly file: string;
  readonly rough_fit?: { readonly k_on_per_h: number; readonly cleaner_on_at_s: number };
}

function listed(): Listed[] {
  return present ? JSON.parse(readFileSync(`${FOLDER}/MANIFEST.json`, "utf8")) : [];
}

function runFrom(index: number, file: string, role: Role): Run {
  const text = readFileSync(`${FOLDER}/${file}`, "utf8");
  const { data, meta } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  const column = (name: string) => Float64Array.from(data, (row) => Number(row[name]));
  const tS = column("time");
  const channels = (meta.fields ?? []).flatMap((id): Channel[] => {
    const size = Number(/[\d.]+$/.exec(id)?.[0]);
    if (/^m?pm[\d.]+$/i.test(id)) return [channelOf(column(id), { id, toUm: size })];
    const count = { id, quantity: "number" as const, unit: "1/cm3" };
    if (id.startsWith("nPM")) return [channelOf(column(id), { ...count, toUm: size })];
    return id.startsWith(">")
      ? [channelOf(column(id), { ...count, fromUm: size, toUm: null, cumulative: "above" })]
      : [];
  });
  const start = tS[0]!;
  return runOf(
    index,
    role,
    tS.map((t) => t - start),
    channels,
    { mixingFan: "unknown" },
  );
}

const analyse = (...runs: Run[]) => analyseTrial(trialOf(runs, undefined, 4.153, 0.083));
const massOf = (...runs: Run[]) => analyse(...runs).results.find(({ band }) => band.name === "mass")!;

describe.skipIf(!present)("real logs", () => {
  const rough = listed().filter(({ file, rough_fit }) => rough_fit && !file.includes("truncated"));

  test("seven of them state a rough two-segment fit", () => {
    expect(rough).toHaveLength(7);
  });

  test.each(rough)("$file: switch-on and k_total as the rough fit has them", ({ file, rough_fit }) => {
    const analysis = analyse(runFrom(0, file, "full_log"));
    const { total } = analysis.results.find(({ band }) => band.name === "mass")!;
    const tolerance = /slowfan|fanA/.test(file) ? 0.1 : 0.2;
    expect(Math.abs(total.kPerH.value / rough_fit!.k_on_per_h - 1)).toBeLessThan(tolerance);
    const natural = analysis.phases.find(({ phase }) => phase === "natural")!;
    expect(Math.abs(natural.toS - rough_fit!.cleaner_on_at_s)).toBeLessThan(20);
  });

  test.each([-40, 30, 48])("a cleaner_on %d s off leaves the natural loss of fanA as it is, and is told", (offS) => {
    const run = runFrom(0, "fanA_run1_optical-b.csv", "full_log");
    const free = massOf(run);
    const onS = 1322;
    const marked = massOf({ ...run, marks: [{ event: "cleaner_on", tS: onS + offS }] });
    expect(Math.abs(marked.natural.kPerH.value - free.natural.kPerH.value)).toBeLessThan(2 * free.natural.kPerH.u);
    const told = marked.findings.find(({ code }) => code === "marks-contradicted");
    expect(Math.abs(told!.value! + offS)).toBeLessThan(8);
    const { low, high } = interval95(marked.cadrM3PerH);
    expect(low < free.cadrM3PerH.value && free.cadrM3PerH.value < high).toBe(true);
  });

  // The author's own figures, from a line forced through the first reading, which reads about 4 % higher.
  test.each([
    [1, 354.12],
    [2, 363.16],
    [3, 362.38],
  ])("tableunit trial %i against its author's %d cfm", (n, cfm) => {
    const off = runFrom(0, "tableunit_off_optical-c.csv", "natural");
    const result = massOf(off, runFrom(1, `tableunit_on_trial${n}_optical-c.csv`, "total"));
    expect(Math.abs(result.cadrM3PerH.value / (cfm * M3H_PER_CFM) - 1)).toBeLessThan(0.15);
  });

  test("three repeats of one unit pool to a narrower interval that holds each of them", () => {
    const off = runFrom(0, "tableunit_off_optical-c.csv", "natural");
    const on = [1, 2, 3].map((n) => runFrom(n, `tableunit_on_trial${n}_optical-c.csv`, "total"));
    const pooled = massOf(off, ...on);
    expect(pooled.total.decays).toHaveLength(3);
    const { low, high } = interval95(pooled.total.kPerH);
    for (const { kPerH } of pooled.total.decays)
      expect(kPerH.value > low - kPerH.u && kPerH.value < high + kPerH.u).toBe(true);
  });

  // χ² of 2 dof: −2·ln(1 − p) at p = 0.005 and 0.995, the two-sided 99 %.
  test("three repeats of one unit differ as the u of their fits says", () => {
    const off = runFrom(0, "tableunit_off_optical-c.csv", "natural");
    const fits = [1, 2, 3].map((n) => massOf(off, runFrom(1, `tableunit_on_trial${n}_optical-c.csv`, "total")).total);
    const weights = fits.map(({ kPerH }) => kPerH.u ** -2);
    const sum = weights.reduce((a, w) => a + w, 0);
    const mean = fits.reduce((a, { kPerH }, i) => a + (weights[i]! * kPerH.value) / sum, 0);
    const chiSquare = fits.reduce((a, { kPerH }) => a + ((kPerH.value - mean) / kPerH.u) ** 2, 0);
    expect(chiSquare).toBeGreaterThan(-2 * Math.log(0.995));
    expect(chiSquare).toBeLessThan(-2 * Math.log(0.005));
  });

  test("the log truncated before the cleaner came on gives no rate but a typed refusal", () => {
    const { results, refusals } = analyse(runFrom(0, "deskfan_s2_run3_truncated_optical-b.csv", "full_log"));
    expect(results).toEqual([]);
    expect(refusals).toContainEqual(expect.objectContaining({ run: 0, code: "no-switch-on" }));
  });

  test("natural logs alone give no rate, and a lid opened ends the natural decay", () => {
    const natural = listed().filter(({ file }) => file.startsWith("chamber_off"));
    for (const { file } of natural) expect(analyse(runFrom(0, file, "natural")).results).toEqual([]);
    const { phases } = analyse(runFrom(0, "tableunit_off_optical-c.csv", "natural"));
    expect(phases.at(-1)).toMatchObject({ phase: "natural", why: "after the peak, until it broke off" });
    expect(phases.at(-1)!.toS).toBeLessThan(800);
  });

  test("backlog rows after the gap are dropped and counted", () => {
    const { dropped } = analyse(runFrom(0, "boxfan_s1_run7_gap_optical-b.csv", "full_log"));
    expect(dropped).toContainEqual({ run: 0, channel: null, reason: "backlog", count: 6 });
  });
});
