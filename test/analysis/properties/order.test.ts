import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readLog } from "../../../analysis/reading/read-log.ts";
import { ReadingError } from "../../../analysis/reading/reading-error.ts";
import type { Run } from "../../../analysis/trial.ts";
import { COUNTER } from "../trial-of.ts";
import { apart, CASES, largestDifference, occasions, pairedRuns, phaseOf, resultOf } from "./generated-trial.ts";

/** A run's rows as a log writes them, each with its own stamp. */
function stampedRows({ series: { tS, channels } }: Run): string[] {
  const start = Date.UTC(2026, 9, 24, 22, 40);
  return Array.from(tS, (t, i) => `${new Date(start + 1000 * t).toISOString()},${channels[0]!.values[i]!}`);
}

function readBack(run: Run, rows: readonly string[]): Run {
  const channels = [
    {
      column: "n",
      id: "n",
      quantity: "number" as const,
      unit: "1/cm3",
      fromUm: 0.3,
      toUm: 1,
      cumulative: "none" as const,
    },
  ];
  return { ...run, series: readLog(["t,n", ...rows].join("\n"), { t: { column: "t" }, channels }).series };
}

const permutation = (n: number) => fc.shuffledSubarray([...Array(n).keys()], { minLength: n, maxLength: n });

describe("a result does not depend on the order", () => {
  test("of rows sent newest first", () => {
    fc.assert(
      fc.property(occasions, (occasion) => {
        const runs = pairedRuns(occasion);
        const reversed = runs.map((run) => readBack(run, stampedRows(run).reverse()));
        expect(largestDifference(resultOf(reversed), resultOf(runs))).toBeLessThan(1e-9);
      }),
      CASES,
    );
  });

  test("of a few rows written late: they are left out, and k moves by a small part of u", () => {
    fc.assert(
      fc.property(occasions, fc.array(fc.noBias(fc.nat(1e6)), { minLength: 1, maxLength: 5 }), (occasion, late) => {
        const runs = pairedRuns(occasion);
        const shuffled = runs.map((run) => {
          const rows = stampedRows(run);
          for (const row of late) rows.splice((3 * row) % rows.length, 0, ...rows.splice(row % rows.length, 1));
          return readBack(run, rows);
        });
        const [one, other] = [resultOf(shuffled), resultOf(runs)];
        expect(Math.abs(one.total.kPerH.value - other.total.kPerH.value)).toBeLessThan(0.5 * other.total.kPerH.u);
      }),
      CASES,
    );
  });

  test("of rows in no order at all, for they are refused as such", () => {
    fc.assert(
      fc.property(occasions, fc.infiniteStream(fc.nat(1e9)), (occasion, keys) => {
        const rows = stampedRows(phaseOf(occasion, 2, "total"));
        const shuffled = rows
          .map((row) => ({ row, key: keys.next().value! }))
          .sort((a, b) => a.key - b.key)
          .map(({ row }) => row);
        expect(() => readBack(phaseOf(occasion, 2, "total"), shuffled)).toThrow(ReadingError);
      }),
      CASES,
    );
  });

  test("of counters", () => {
    fc.assert(
      fc.property(occasions, permutation(3), (occasion, order) => {
        const counters = ["c1", "c2", "c3"].map((id) => ({ ...COUNTER, id }));
        const runs = counters.flatMap(({ id }, i) =>
          pairedRuns({ ...occasion, seed: occasion.seed + 7 * i, kAdded: occasion.kAdded * (1 + 0.02 * i) }).map(
            (run) => ({ ...run, index: run.index + 3 * i, counter: id }),
          ),
        );
        const other = order.map((i) => counters[i]!);
        expect(largestDifference(resultOf(runs, other), resultOf(runs, counters))).toBeLessThan(1e-9);
      }),
      CASES,
    );
  });
});

test("a single total is not moved by where it stands among the naturals", () => {
  fc.assert(
    fc.property(occasions, fc.nat(3), (occasion, at) => {
      const [background, natural, total] = pairedRuns(occasion);
      const before = [background!, natural!, phaseOf(occasion, 3, "natural")];
      const other = [...before.slice(0, at), total!, ...before.slice(at)];
      const [one, two] = [resultOf(other), resultOf([...before, total!])];
      expect(apart(one.cadrM3PerH.value, two.cadrM3PerH.value)).toBeLessThan(1e-12);
    }),
    CASES,
  );
});
