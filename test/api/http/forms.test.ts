import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import type { AnalysisOut } from "../../../api/wire/analysis.ts";
import { problemOf } from "../../support/client.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { type Target, targets } from "../../support/targets.ts";

describe.each(targets())("$name: the shortest call", ({ start }) => {
  let target: Target;
  beforeAll(async () => {
    target = await start();
  });
  afterAll(() => target.stop());
  const send = (fields: Record<string, string>) => {
    const form = new FormData();
    form.set("file", new Blob([toCsv(sampleLog(1).series)]), "log.csv");
    for (const [name, value] of Object.entries(fields)) form.set(name, value);
    return target.request("/v1/analyses", { method: "POST", body: form });
  };

  test("takes the volume in any spelling, or the sides", async () => {
    const ways: Record<string, string>[] = [
      { volume: "30 m3" },
      { volume: "30m³" },
      { volume: "30000+L" },
      { length: "4m", width: "3 m", height: "250cm" },
    ];
    for (const fields of ways) {
      const answer = await send(fields);
      expect(answer.status).toBe(200);
      const { volume } = (await answer.json()) as AnalysisOut;
      expect(volume.value).toBeCloseTo(30, 9);
      expect(volume.u / 30).toBeCloseTo("volume" in fields ? 0.05 : 0.02, 9);
      expect(volume.basis).toBe("volume" in fields ? "estimate" : "measured_sides");
    }
  });

  test("takes marks in the file's own time", async () => {
    const answer = await send({ volume: "30m3", cleaner_on: "1920", aerosol_end: "420" });
    const analysis = (await answer.json()) as AnalysisOut;
    const natural = analysis.phases.find(({ phase }) => phase === "natural")!;
    expect(natural.to).toBeLessThanOrEqual(1920);
  });

  test.each([
    [{}, "#/volume"],
    [{ volume: "0m3" }, "#/volume"],
    [{ volume: "thirty" }, "#/volume"],
    [{ volume: "30kg" }, "#/volume"],
    [{ volume: "30m3", role: "loud" }, "#/role"],
    [{ volume: "30m3", principle: "magic" }, "#/principle"],
    [{ volume: "30m3", aerosol: "perfume" }, "#/aerosol"],
    [{ volume: "30m3", ventilation: "gale" }, "#/ventilation"],
    [{ volume: "30m3", cleaner_on: "soon" }, "#/cleaner_on"],
    [{ volume: "30m3", colour: "blue" }, "#/colour"],
  ])("%j is refused at its own field %s", async (fields, pointer) => {
    const problem = await problemOf(await send(fields as Record<string, string>), 422);
    expect(problem.errors!.map((error) => error.pointer)).toContain(pointer);
    expect(problem.detail).not.toContain("/room");
  });
});
