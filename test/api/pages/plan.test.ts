import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TestPlanOut } from "../../../api/wire/test-plan.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { json } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, words } from "./html-tree.ts";

let target: InProcess;
beforeAll(async () => {
  target = await startInProcess();
});
afterAll(() => target.stop());

async function ask(query: string, status = 200): Promise<Element> {
  const answer = await target.request(`/plan?${query}`);
  expect(answer.status).toBe(status);
  return parseHtml(await answer.text());
}

/** The plan that the question printed on the page is answered with. */
async function asData(page: Element): Promise<TestPlanOut> {
  const answer = await target.request("/v1/test-plans", json(JSON.parse(words(one(page, "pre")))));
  expect(answer.status).toBe(200);
  return TestPlanOut.parse(await answer.json());
}

const figure = (value: number) => Number(value.toPrecision(2));
const field = (page: Element, name: string) => one(page, ({ attributes }) => attributes.id === `f-${name}`);
const definition = (page: Element, term: string) => {
  const children = all(page, "dl").flatMap(({ children }) => children.filter((each) => typeof each !== "string"));
  return words(children[children.findIndex((each) => each.tag === "dt" && words(each) === term) + 1]!);
};

const ROOM = "in=m&length=5&width=4&height=2.5&within=4";
const ASKED = `${ROOM}&cadr=300&cadr_in=m3%2Fh&interval=6&principle=optical_counter&wanted=8&wanted_in=percent&ventilation=off`;

describe("planning a test", () => {
  test("nothing asked: the form with what is taken where nothing is said, and a caution", async () => {
    const page = await ask("");
    expect(all(page, hasClass("error"))).toEqual([]);
    expect(field(page, "interval").attributes.value).toBe("10");
    expect(words(one(page, hasClass("caution")))).toContain("before anything smokes");
  });

  test("every figure is the API's", async () => {
    const page = await ask(ASKED);
    const plan = await asData(page);
    expect(words(one(page, hasClass("figure")))).toBe(
      `${plan.natural_minutes}\u00a0min with the cleaner off, ${plan.minutes}\u00a0min with it on`,
    );
    expect(definition(page, "Expect the clean air delivery rate (CADR) to be right within")).toContain(
      `± ${figure(plan.expanded_u)} m³/h at 95\u00a0%`,
    );
    expect(definition(page, "Asked for")).toContain("± 24 m³/h"); // 8 % of 300
    expect(plan.wanted_u).toBeCloseTo(24 / 1.959964, 5);
    expect(definition(page, "Aerosol at the start of each decay")).toContain(`${plan.start_over_background} times`);
    expect(definition(page, "Volume")).toBe("50.0 ± 2.0 m³, as given"); // 4 % of 5·4·2.5
    expect(definition(await ask(ASKED.replace("&within=4", "")), "Volume")).toMatch(
      /^50.0 ± 2.0 m³; about ±\u00a04\u00a0% is assumed for three taped sides/,
    );
    for (const words_ of plan.advice) expect(words(page)).toContain(words_.replaceAll(" %", "\u00a0%"));
    const rows = all(one(page, hasClass("budget")), "tr").slice(1);
    const parts = plan.budget.toSorted((a, b) => b.share - a.share);
    expect(rows.map((row) => words(all(row, "td")[1]!))).toEqual(
      parts.map(({ share }) => `${Math.round(100 * share)}\u00a0%`),
    );
    const widths = rows.map((row) => Number(one(row, "rect").attributes.width));
    for (const [i, { share }] of parts.entries()) expect(widths[i]).toBeCloseTo(238 * share, 0); // of 240, less the edges
  });

  test("cautions stand before the steps, which hold the plan's own lengths in order", async () => {
    const page = await ask(ASKED);
    const plan = await asData(page);
    const text = words(one(page, "main"));
    for (const caution of plan.cautions) {
      expect(text.indexOf(caution)).toBeGreaterThan(0);
      expect(text.indexOf(caution)).toBeLessThan(text.indexOf("The day of the test"));
    }
    const steps = all(one(page, hasClass("day")), "li").map(words);
    const place = (piece: string) => steps.findIndex((step) => step.includes(piece));
    const order = [
      "Clean air.",
      `about ${plan.start_over_background} times the clean air`,
      "Mix.",
      `for ${plan.natural_minutes} min`,
      `Log ${plan.minutes} min`,
      "Air the room",
    ].map(place);
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect(order[0]).toBeGreaterThanOrEqual(0);
  });

  test.each(["length=5&width=4&height=2,5", "volume=50", "length=2,4&width=2,4&height=2,2", "area=90&height=3"])(
    "what is taken where nothing is said can be reached in a room of %s",
    async (size) => {
      for (const cadr of [100, 300, 600]) {
        const page = await ask(`${size}&cadr=${cadr}`);
        expect(field(page, "wanted").attributes.value).toBe("15");
        expect(definition(page, "Asked for")).toMatch(/which is 15\u00a0% of it: one test reaches it$/);
      }
    },
  );

  test("what is out of reach says what would be in it, both at 95 % and with two digits, in the reader's unit", async () => {
    const asked = "volume=50&cadr=300&cadr_in=m3/h&wanted=9";
    const page = await ask(asked);
    const plan = await asData(page);
    expect(plan.reachable).toBe(false);
    const advice = plan.advice.join(" ");
    expect(advice).toContain(`± 27 m³/h at 95 % is out of reach`); // 9 % of 300
    expect(advice).toContain(`Expect ± ${figure(plan.expanded_u)} m³/h.`);
    expect(advice).not.toMatch(/standard uncertainty|\d\d\.\d/);
    const inReach = Number(/± (\d+) % of the rate would be in reach of one test/.exec(advice)![1]);
    expect((await asData(await ask(`volume=50&cadr=300&wanted=${inReach}`))).reachable).toBe(true);
    const volume = Number(/volume known to ± ([\d.]+) % at 95 %/.exec(advice)![1]);
    expect((await asData(await ask(`${asked}&within=${volume - 0.1}`))).reachable).toBe(true);
    expect(words(await ask(`${asked}&unit=cfm`))).toContain("± 16 cfm at 95\u00a0% is out of reach"); // 27/1.699
  });

  test("nothing lit and no taped fan is left unattended: watched from outside, the plug within reach", async () => {
    const steps = words(one(await ask(ASKED), hasClass("day")));
    expect(steps).toContain("watch it the whole time through the window or by the camera, the plug within reach");
    expect(steps).toContain("never left unattended");
    expect(steps).toMatch(/Stay with anything lit or hot from the first spark until it is cold/);
    expect(steps.indexOf("plug within reach from outside")).toBeLessThan(steps.indexOf("Aerosol, first time"));
  });

  test("feet and cfm of one room give one plan", async () => {
    const metres = await asData(await ask(ASKED));
    const feet = ASKED.replace(ROOM, `in=ft&length=${5 / 0.3048}&width=${4 / 0.3048}&height=${2.5 / 0.3048}&within=4`)
      .replace("cadr=300", `cadr=${300 / 1.69901079552}`)
      .replace("m3%2Fh", "cfm");
    const other = await asData(await ask(feet));
    expect([other.minutes, other.natural_minutes]).toEqual([metres.minutes, metres.natural_minutes]);
    expect(other.u).toBeCloseTo(metres.u, 9);
    const shown = await ask(`${ASKED}&unit=cfm`);
    expect(definition(shown, "Asked for")).toContain("± 14 cfm"); // 24/1.699
  });

  test("a wanted flow is a ± at 95 % too, in the rate's own unit", async () => {
    const plan = await asData(await ask(ASKED.replace("wanted=8&wanted_in=percent", "wanted=24&wanted_in=flow")));
    expect(plan.wanted_u).toBeCloseTo(24 / 1.959964, 5);
  });

  test("what is out of reach of one test says how many, or that none will do", async () => {
    const none = await ask(ASKED.replace("wanted=8", "wanted=1"));
    expect((await asData(none)).trials).toBeNull();
    expect(definition(none, "Asked for")).toContain("out of reach with this counter and room");
    const noisy = ASKED.replace("wanted=8", "wanted=5").replace("within=4", "within=1");
    const some = await ask(`${noisy}&memory=30&memory_time=300`);
    const { trials } = await asData(some);
    expect(trials).toBeGreaterThan(1);
    expect(definition(some, "Asked for")).toContain(`${trials} such tests`);
  });

  test("what is known of the counter is sent on", async () => {
    const page = await ask(
      `${ASKED}&white=2&memory=3&memory_time=90&counts=500&sample_flow=2.83&max_concentration=20000&smoothing=lag&smoothing_time=5&background=10&natural=0,4`,
    );
    expect(JSON.parse(words(one(page, "pre")))).toMatchObject({
      counter: {
        principle: "optical_counter",
        smoothing: { kind: "lag", time: { value: 5, unit: "s" } },
        sample_flow: { value: 2.83, unit: "L/min" },
        max_concentration: { value: 20000, unit: "1/cm3" },
        noise: {
          white: { value: 2, unit: "%" },
          memory: { value: 3, unit: "%" },
          memory_time: { value: 90 },
          counts: 500,
        },
      },
      natural: { value: 0.4, unit: "1/h" },
      background: { value: 10, unit: "1/cm3" },
    });
    await asData(page);
  });

  test.each([
    ["length=5&cadr=300", ["width", "height"]],
    [`${ROOM}`, ["cadr"]],
    [`${ROOM}&cadr=x&interval=0`, ["cadr", "interval"]],
    [`${ROOM}&cadr=300&wanted=-1`, ["wanted"]],
    [`${ROOM}&cadr=300&wanted=500&wanted_in=percent`, ["wanted"]],
    [`${ROOM}&cadr=300&principle=magic&smoothing=lag`, ["principle", "smoothing_time"]],
    [`${ROOM}&cadr=0.01&natural=0.01`, ["cadr"]], // would not halve within four hours
    ["volume=30&cadr=240&interval=300", ["interval"]], // is over before it is read
    [`${ROOM}&cadr=300&memory_time=1000&background=<b>`, ["memory_time", "background"]],
  ])("%s: said beside the field, which holds what was typed", async (query, names) => {
    const page = await ask(query, 422);
    const wrong = all(page, ({ attributes }) => attributes.id?.endsWith("-error") ?? false);
    expect(wrong.map(({ attributes }) => attributes.id!.slice(2, -6)).sort()).toEqual([...names].sort());
    for (const name of names) {
      const control = field(page, name);
      expect(control.attributes["aria-invalid"]).toBe("true");
      const typed = new URLSearchParams(query).get(name);
      if (control.tag === "input" && typed) expect(control.attributes.value).toBe(typed);
    }
    expect(all(page, hasClass("figure"))).toEqual([]);
  });
});
