import { describe, expect, test } from "vitest";
import { cdcRowFor } from "../../../analysis/sizing/cdc-table.ts";
import cdc from "../../fixtures/cdc-table-b1.fixture.json" with { type: "json" };

describe("CDC Table B.1 as printed", () => {
  const [printed] = cdc.cases;
  test.each(printed!.rows as [number, number[]][])("%d air changes an hour", (ach, [to99, to999]) => {
    expect(cdcRowFor(ach)).toEqual({ airChangesPerH: ach, minutesTo99: to99, minutesTo999: to999 });
  });

  test("between two rows the one below counts, under the first none", () => {
    expect(cdcRowFor(5.99)!.airChangesPerH).toBe(4);
    expect(cdcRowFor(1000)!.airChangesPerH).toBe(50);
    expect(cdcRowFor(1.99)).toBeNull();
    expect(cdcRowFor(Number.NaN)).toBeNull();
  });
});
