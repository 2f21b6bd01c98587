import { describe, expect, test } from "vitest";
import { foldText, identityOf } from "../../api/configuration-identity.ts";
import { ConfigurationIn } from "../../api/wire/configuration.ts";
import { SAMPLE_CONFIGURATION } from "../support/sample-trial.ts";

const identity = (changes: object) => identityOf(ConfigurationIn.parse({ ...SAMPLE_CONFIGURATION, ...changes }));
const [fan, filter] = SAMPLE_CONFIGURATION.parts;

describe("a configuration is its parts and their arrangement", () => {
  test.each([
    ["the title", { title: "Another name" }],
    ["settings and costs", { settings: [], costs: [] }],
    ["case, spaces and accents written apart", { arrangement: "  One PANEL on the\tsuction side " }],
    ["the order of parts", { parts: [filter, fan] }],
    ["the unit of a flow", { parts: [{ ...fan, stated_flow: { value: 400 / 1.699010795, unit: "cfm" } }, filter] }],
    ["the uncertainty of a flow", { parts: [{ ...fan, stated_flow: { value: 400, unit: "m3/h", u: 20 } }, filter] }],
  ])("%s makes no other", async (_, changes) => {
    expect(await identity(changes)).toBe(await identity({}));
  });

  test.each([
    ["another arrangement", { arrangement: "one panel on the pressure side" }],
    ["no arrangement", { arrangement: undefined }],
    ["another grade", { parts: [fan, { ...filter, filter_grade: { system: "MERV", grade: "14" } }] }],
    ["a second filter", { parts: [fan, { ...filter, count: 2 }] }],
    ["another flow", { parts: [{ ...fan, stated_flow: { value: 401, unit: "m3/h" } }, filter] }],
    ["a bought one", { kind: "commercial", maker: "Invented", model: "One" }],
  ])("%s makes another", async (_, changes) => {
    expect(await identity(changes)).not.toBe(await identity({}));
  });

  test("two like parts are one part twice", async () => {
    expect(await identity({ parts: [fan, filter, filter] })).toBe(
      await identity({ parts: [fan, { ...filter, count: 2 }] }),
    );
  });

  test("folding: NFC, trimmed, single-spaced, lower case", () => {
    expect(foldText("  Cafe\u0301  \n BOX ")).toBe("caf\u00e9 box");
  });
});
