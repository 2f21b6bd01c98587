import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TestPlanOut } from "../../../api/wire/test-plan.ts";
import { problemOf } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { json } from "../../support/sample-trial.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

const ASKED = {
  volume: { value: 30, unit: "m3", u: 0.3 },
  cadr: { value: 240, unit: "m3/h" },
  interval: { value: 10, unit: "s" },
  counter: { principle: "optical_counter" },
  wanted_u: { value: 5, unit: "m3/h" },
};
const post = (body: unknown) => target.request("/v1/test-plans", json(body));
async function plan(changes: object = {}) {
  const response = await post({ ...ASKED, ...changes });
  const body = await response.json();
  expect([response.status, response.status === 200 ? "" : body]).toEqual([200, ""]);
  return TestPlanOut.strict().parse(body);
}

describe("a test plan", () => {
  test("says how long, how much, how well, and why", async () => {
    const found = await plan();
    expect(found.reachable).toBe(true);
    expect(found.u).toBeLessThanOrEqual(5);
    expect(found.relative_u).toBeCloseTo(found.u / 240, 12);
    expect(found.expanded_u).toBeCloseTo(1.959964 * found.u, 5);
    expect(found.relative_expanded_u).toBeCloseTo(found.expanded_u / 240, 12);
    expect(found.volume.high - found.volume.low).toBeCloseTo(2 * 1.959964 * 0.3, 5);
    expect(found.wanted_expanded_u).toBeCloseTo(1.959964 * 5, 5);
    expect(found.minutes).toBeGreaterThanOrEqual(10);
    expect(found.natural_minutes).toBeGreaterThanOrEqual(10);
    expect(found.start_over_background).toBeGreaterThanOrEqual(20);
    expect(found.budget.map(({ source }) => source)).toEqual(["volume", "total_fit", "natural_fit"]);
    expect(Math.hypot(...found.budget.map(({ u }) => u))).toBeCloseTo(found.u, 9);
    expect(found.budget.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    expect(found.natural).toEqual({ value: 0.8, unit: "1/h", assumed: true });
    expect(found.advice.join(" ")).toContain(`${found.minutes} min`);
    expect(found.cautions.length).toBeGreaterThan(0);
  });

  test("is the same whatever units the question is asked in", async () => {
    const plain = await plan({ wanted_u: { value: 5, unit: "m3/h" } });
    const percent = await plan({ wanted_u: { value: (100 * 5) / 240, unit: "%" } });
    const trade = await plan({
      volume: { value: 30 / 0.3048 ** 3, unit: "ft3", u: 0.3 / 0.3048 ** 3 },
      interval: { value: 1 / 6, unit: "min" },
      counter: "optical_counter",
    });
    for (const other of [percent, trade]) {
      expect(other.minutes).toBe(plain.minutes);
      expect(other.u).toBeCloseTo(plain.u, 6);
    }
  });

  test("a u under the volume's own is said to be out of reach, with the u the volume would need", async () => {
    const found = await plan({ wanted_u: { value: 1, unit: "%" }, volume: { value: 30, unit: "m3" } });
    expect(found).toMatchObject({
      reachable: false,
      dominant: "volume",
      trials: null,
      volume: { u: 1.5, basis: "estimate" },
    });
    expect(found.u).toBeGreaterThan(12);
    expect(found.advice.join(" ")).toContain("out of reach");
  });

  test("what is known of the counter is used", async () => {
    const few = await plan({ counter: { principle: "optical_counter", noise: { counts: 1 } } });
    const many = await plan({ counter: { principle: "optical_counter", noise: { counts: 10_000 } } });
    const minutes = (found: typeof few) => found.minutes + found.natural_minutes;
    expect(minutes(few)).toBeGreaterThan(minutes(many));
    // 0.06 m³/h are 100 cm³ in 6 s: of 5 /cm³ 500 counts
    const flow = { sample_flow: { value: 1, unit: "L/min" } };
    const counted = await plan({
      interval: { value: 6, unit: "s" },
      background: { value: 5, unit: "1/cm3" },
      counter: { principle: "optical_counter", ...flow },
    });
    const stated = await plan({
      interval: { value: 6, unit: "s" },
      counter: { principle: "optical_counter", noise: { counts: 500 } },
    });
    expect(counted.u).toBeCloseTo(stated.u, 9);
    const quiet = { white: { value: 0.1, unit: "%" }, memory: { value: 0, unit: "%" } };
    expect(minutes(await plan({ counter: { principle: "photometer", noise: quiet } }))).toBeLessThan(
      minutes(await plan({ counter: { principle: "photometer" } })),
    );
  });

  test("of the corners of what may be asked is still a finite number, or a refusal with its pointer", async () => {
    const corners = [
      { volume: { value: 1e6, unit: "m3" }, cadr: { value: 1e6, unit: "m3/h" } },
      { volume: { value: 1e6, unit: "m3", u: 0 }, cadr: { value: 0.01, unit: "m3/h" } },
      { volume: { value: 0.01, unit: "m3", u: 0.01 }, cadr: { value: 1e6, unit: "m3/h" } },
      { volume: { value: 0.01, unit: "m3" }, cadr: { value: 0.01, unit: "m3/h" }, interval: { value: 0.1, unit: "s" } },
      { interval: { value: 600, unit: "s" }, cadr: { value: 30, unit: "m3/h" } },
      { natural: { value: 100, unit: "1/h" } },
      { natural: { value: 0.001, unit: "1/h" }, wanted_u: { value: 0.01, unit: "%" } },
      { background: { value: 1e7, unit: "1/cm3" }, counter: { max_concentration: { value: 0.001, unit: "1/cm3" } } },
      { background: { value: 1e-6, unit: "1/cm3" }, counter: { sample_flow: { value: 1e-6, unit: "m3/h" } } },
      {
        interval: { value: 600, unit: "s" },
        cadr: { value: 5, unit: "m3/h" },
        counter: {
          quantity: "mass",
          smoothing: { kind: "lag", time: { value: 600, unit: "s" } },
          noise: {
            memory: { value: 1, unit: "1" },
            white: { value: 0, unit: "1" },
            memory_time: { value: 900, unit: "s" },
          },
        },
      },
    ];
    for (const corner of corners) {
      const response = await post({ ...ASKED, ...corner });
      const text = await response.text();
      expect([200, 422]).toContain(response.status);
      if (response.status === 422) expect(JSON.parse(text).errors[0].pointer).toMatch(/^#\/(cadr|interval|counter)/);
      else {
        const found = TestPlanOut.strict().parse(JSON.parse(text));
        expect(found.u).toBeGreaterThan(0);
        expect(found.minutes).toBeLessThanOrEqual(240);
        expect(found.natural_minutes).toBeLessThanOrEqual(240);
      }
    }
  });

  test.each([
    ["nothing", {}, "#/volume"],
    ["a bare number", { ...ASKED, volume: 30 }, "#/volume"],
    ["a volume of 0", { ...ASKED, volume: { value: 0, unit: "m3" } }, "#/volume/value"],
    ["a volume in metres", { ...ASKED, volume: { value: 30, unit: "m" } }, "#/volume/unit"],
    ["a volume less certain than itself", { ...ASKED, volume: { value: 30, unit: "m3", u: 31 } }, "#/volume/u"],
    ["a cadr below 0", { ...ASKED, cadr: { value: -1, unit: "m3/h" } }, "#/cadr/value"],
    ["an interval of no time", { ...ASKED, interval: { value: 0, unit: "s" } }, "#/interval/value"],
    ["a wanted u of nothing", { ...ASKED, wanted_u: { value: 0, unit: "m3/h" } }, "#/wanted_u/value"],
    ["a wanted u in decibels", { ...ASKED, wanted_u: { value: 5, unit: "dB" } }, "#/wanted_u/unit"],
    ["an unknown counter", { ...ASKED, counter: { principle: "nose" } }, "#/counter/principle"],
    ["an unknown field", { ...ASKED, volum: 3 }, "#/volum"],
    ["counts of nothing", { ...ASKED, counter: { noise: { counts: 0 } } }, "#/counter/noise/counts"],
    ["a decay too fast for the interval", { ...ASKED, interval: { value: 5, unit: "min" } }, "#/interval"],
    [
      "a cleaner that clears nothing",
      { ...ASKED, cadr: { value: 0.01, unit: "m3/h" }, natural: { value: 0.01, unit: "1/h" } },
      "#/cadr",
    ],
  ])("is refused for %s, which the pointer names", async (_, body, pointer) => {
    const problem = await problemOf(await post(body), 422);
    expect(problem.errors!.map((error) => error.pointer)).toContain(pointer);
  });
});
