import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { flowAsSent } from "../../api/flow-as-sent.ts";
import { ConfigurationIn } from "../../api/wire/configuration.ts";
import { newKey, store } from "../support/client.ts";
import { startInProcess } from "../support/in-process.ts";
import { json, SAMPLE_CONFIGURATION, sampleTrial } from "../support/sample-trial.ts";
import type { Target } from "../support/targets.ts";

describe("the flow a maker states", () => {
  const fan = (value?: number, count = 1) => ({
    part: "fan",
    count,
    description: "axial",
    ...(value === undefined ? {} : { stated_flow: { value, unit: "m3/h" } }),
  });
  const flow = (parts: object[], settings: object[] = [], label?: string) =>
    flowAsSent(ConfigurationIn.parse({ title: "Box", kind: "user_built", parts, settings }), label);

  test("is the setting's, else that of all fans; unknown where a fan states none, or there is no fan", () => {
    const settings = [{ label: "Low", stated_flow: { value: 90, unit: "m3/h" } }, { label: "High" }];
    expect(flow([fan(200, 2)], settings, " low ")).toBe(90);
    expect(flow([fan(200, 2), fan(50)], settings, "High")).toBe(450);
    expect(flow([fan(200, 2), fan()])).toBeNull();
    expect(flow([{ part: "filter", count: 1, description: "pleated panel" }])).toBeNull();
  });
});

describe("the single-pass ratio of a stored trial", () => {
  let target: Target;
  beforeAll(async () => {
    target = await startInProcess();
  });
  afterAll(() => target.stop());

  test("is CADR over the flow, the same however the configuration is named and whenever it is read", async () => {
    const key = await newKey(target);
    const sent = sampleTrial(41);
    const first = await store(target, key, sent);
    const [result] = first.analysis.results;
    const stated = SAMPLE_CONFIGURATION.parts[0]!.stated_flow!.value;
    expect(result!.single_pass!.value).toBeCloseTo(result!.cadr.value / stated, 12);
    expect(result!.single_pass!.u).toBeCloseTo(result!.cadr.u / stated, 12);

    const again = await target.request("/v1/analyses", json({ trial: first.id }));
    expect(await again.json()).toEqual(first.analysis);
    const named = await store(target, key, { ...sampleTrial(42), configuration: first.configuration.id });
    const [byId] = named.analysis.results;
    expect(byId!.single_pass!.value).toBeCloseTo(byId!.cadr.value / stated, 12);
  });
});
