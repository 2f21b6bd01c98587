import { jsx } from "hono/jsx";
import { describe, expect, test } from "vitest";
import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { FINDING_CODES } from "../../../analysis/analysis.ts";
import { Budget } from "../../../api/pages/trial/budget.tsx";
import { FINDING_WORDS } from "../../../api/pages/trial/finding-words.ts";
import { Findings } from "../../../api/pages/trial/findings.tsx";
import { sourceWords } from "../../../api/pages/trial/source-words.ts";
import { writeAnalysis } from "../../../api/write-analysis.ts";
import { FINDING_CASES } from "../../analysis/findings/finding-cases.ts";
import { all, hasClass, one, parseHtml, words } from "./html-tree.ts";

const SEVERITIES = { serious: "Serious.", warning: "Warning.", note: "Note." };

function shown(code: (typeof FINDING_CODES)[number], flow: "m3/h" | "[cft_i]/min" = "m3/h") {
  const { raises, band = "mass" } = FINDING_CASES[code];
  const trial = raises();
  const runs = trial.runs.map((input) => ({ input }));
  const analysis = writeAnalysis(analyseTrial(trial), runs, { volumeM3: trial.room.volumeM3, basis: "stated" });
  const result = analysis.results.find((each) => each.band.name === band)!;
  const reader = { flow, href: "/" };
  const findings = jsx(Findings, { reader, several: false, results: [result], unitOf: () => "µg/m³" });
  const page = parseHtml(String(findings) + String(jsx(Budget, { reader, result })));
  return { result, page, finding: result.findings.find((each) => each.code === code)! };
}

describe("findings and budgets in words", () => {
  test.each(FINDING_CODES)("%s: its message holds no word of the interface, no channel and no bare unit", (code) => {
    const { message } = shown(code).finding;
    expect(message).not.toMatch(/[a-z]_[a-z]|c1\/|\(1\/h\)|\(m³\)|\bby this\b|\bsubmitter\b/);
  });

  test.each(FINDING_CODES)("%s: severity, message, value, effect, and what to do next time", (code) => {
    const { page, finding, result } = shown(code);
    const item = all(page, "li").find((each) => words(each).includes(`Next time: ${FINDING_WORDS[code].next}`))!;
    const said = words(item);
    expect(words(one(item, "b"))).toBe(SEVERITIES[finding.severity]);
    expect(said).toContain(finding.message);
    expect(said).toContain(`${FINDING_WORDS[code].value[0]}: `);
    expect(said.includes("adds a standard uncertainty of")).toBe(finding.effect !== null);
    const budget = words(one(page, hasClass("budget")));
    for (const text of [words(page), budget]) expect(text).not.toMatch(/\b(NaN|Infinity|undefined|null)\b/);
    for (const { source } of result.budget) {
      expect(budget).toContain(sourceWords(source, result.natural.source));
      expect(sourceWords(source, "measured")).not.toBe("Another source");
      if (source.includes("_")) expect(budget).not.toContain(source);
    }
    expect(words(page)).not.toMatch(/[a-z]_[a-z]/);
  });

  test("each says one thing to do, which is not what the message says already", () => {
    const said = new Set<string>();
    for (const code of FINDING_CODES) {
      const { next } = FINDING_WORDS[code];
      expect(next).toMatch(/^[A-Z].*\.$/);
      expect(said.has(next)).toBe(false);
      said.add(next);
      expect(shown(code).finding.message).not.toContain(next);
    }
  });

  // Mean numbers over half an hour of A·e^(−kt), K = 7·10⁻¹⁰ cm³/s: where it is followed the finding is not raised again.
  test.each([1.5, 5, 12])("with the aerosol advised, particles that stick shift a rate of %f by under 0.5 %", (k) => {
    const most = Number(/[\d\u00a0]{3,}/.exec(FINDING_WORDS.coagulation.next)![0].replaceAll("\u00a0", ""));
    const mean = (rate: number) => (most * (1 - Math.exp(-rate / 2))) / (rate / 2);
    const naturalPerH = 0.3;
    const shiftPerH = 3600 * 7e-10 * (mean(naturalPerH) - mean(k));
    expect(most).toBeGreaterThan(1000);
    expect(shiftPerH / (k - naturalPerH)).toBeLessThan(0.005);
  });

  test("flows of findings and budgets are in the reader's unit", () => {
    const [metric, imperial] = [shown("repeats-differ"), shown("repeats-differ", "[cft_i]/min")];
    expect(words(one(metric.page, hasClass("budget")))).toContain("Standard uncertainty, m³/h");
    expect(words(one(imperial.page, hasClass("budget")))).toContain("Standard uncertainty, cfm");
    const { value } = metric.finding;
    expect(words(metric.page)).toContain(`between them: ${Number(value!.toPrecision(2))} m³/h`);
    expect(words(imperial.page)).toContain(`between them: ${Number((value! / 1.69901).toPrecision(2))} cfm`);
  });

  test("a share below zero stands left of the line, and is explained", () => {
    const { page, result } = shown("mixing-not-forced");
    const shared = result.budget.find(({ source }) => source === "shared_background");
    expect(shared!.share).toBeLessThan(0);
    expect(all(page, hasClass("part-less"))).toHaveLength(1);
    expect(words(page)).toContain("a share below zero lessens the whole");
  });
});
