import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readTrial } from "../../api/browser/read-trial.ts";
import { Unread } from "../../api/browser/shape.ts";
import { AnalysisIn } from "../../api/wire/trial.ts";
import { randomSentTrial } from "../support/random-sent-trial.ts";

/* The browser's reading of a trial against the schema of the wire: it says the same, or nothing. */

/** What an analysis reads of a trial as the schema gives it. */
function bySchema(sent: unknown) {
  const parsed = AnalysisIn.safeParse(sent);
  if (!parsed.success) return null;
  const { room, counters, runs, performed_at, setting, configuration } = parsed.data;
  const flows =
    typeof configuration === "object"
      ? {
          parts: configuration.parts.map(({ part, count, stated_flow }) => ({ part, count, stated_flow })),
          settings: configuration.settings.map(({ label, stated_flow }) => ({ label, stated_flow })),
        }
      : configuration;
  return { room, counters, runs, performed_at, setting, configuration: flows };
}

function inBrowser(sent: unknown) {
  try {
    const { room, counters, runs, performed_at, setting, configuration } = readTrial(sent);
    return { room, counters, runs, performed_at, setting, configuration };
  } catch (error) {
    if (error instanceof Unread) return null;
    throw error;
  }
}

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe("a trial read without the schemas", () => {
  test("is the trial that the schemas read, or is left to them", () => {
    let both = 0;
    let neither = 0;
    fc.assert(
      fc.property(randomSentTrial, (sent) => {
        const [ours, theirs] = [inBrowser(plain(sent)), bySchema(plain(sent))];
        expect(plain(ours)).toEqual(plain(theirs));
        if (ours) both++;
        else neither++;
      }),
      { numRuns: 6000, seed: 20_261_125 },
    );
    expect(both).toBeGreaterThan(300); // else it would say nothing of what is read
    expect(neither).toBeGreaterThan(300);
  });

  test("runs that are no files are left to the server", () => {
    const room = { volume: { value: 30, unit: "m3" } };
    for (const source of [
      { from_run: "trl-0/runs/0" },
      { series: { t: { unit: "s", values: [0, 1] }, channels: [] } },
      {},
    ]) {
      expect(inBrowser({ room, runs: [{ role: "natural", ...source }] })).toBeNull();
    }
  });

  test.each([null, 3, "trial", [], { room: null }, JSON.parse('{"__proto__":{"room":1},"runs":[]}')])(
    "%j is none",
    (sent) => {
      expect(inBrowser(sent)).toBeNull();
    },
  );
});
