import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { figures, plusMinus, range } from "../../../api/pages/figures.ts";
import type { DecayOut } from "../../../api/wire/analysis.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleLog, sampleTrial, sentSeries } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, words } from "./html-tree.ts";

const CFM = 0.3048 ** 3 * 60; // m³/h in one cubic foot a minute

let target: InProcess;
let key: string;
let trial: StoredTrial;
beforeAll(async () => {
  target = await startInProcess();
  key = await newKey(target, "Slack water");
  trial = await store(target, key, sampleTrial(1));
});
afterAll(() => target.stop());

async function pageOf(id: string, query = ""): Promise<Element> {
  const answer = await target.request(`/trials/${id}${query}`);
  expect(answer.status).toBe(200);
  return parseHtml(await answer.text());
}

const part = (page: Element, name: string) => one(page, hasClass(name));
const drawing = (page: Element, of: string, size = "wide") =>
  one(page, ({ tag, attributes }) => {
    return tag === "svg" && (attributes["aria-labelledby"] ?? "").startsWith(`${of}-${size}-title`);
  });
const numbers = (text: string) => text.match(/-?[\d.]+/g)!.map(Number);

/** A log of everything with its marks, two lone readings far off, and a crop at its end. */
function markedLog(seed: number) {
  const log = sampleLog(seed);
  const series = sentSeries(log.series);
  for (const row of [100, 250]) series.channels[0]!.values[row] = 50 * series.channels[0]!.values[row]!;
  const marks = [
    { event: "aerosol_end", t: 420 },
    { event: "cleaner_on", t: 1920 },
  ];
  return sampleTrial(seed, { runs: [{ role: "full_log", series, marks, to: 3300 }] });
}

describe("a trial's page says what its JSON says", () => {
  test.each([
    ["m3/h", "m³/h", 1],
    ["cfm", "cfm", CFM],
  ])("rates in %s, each beside who paid", async (unit, unitWords, scale) => {
    const page = await pageOf(trial.id, `?unit=${unit}`);
    const standard = trial.analysis.results.filter(({ band }) => band.kind === "standard");
    const shown = all(part(page, "trial-bands"), "section");
    expect(shown).toHaveLength(standard.length);
    for (const [i, { cadr, air_changes: added, total }] of standard.entries()) {
      const scaled = { value: cadr.value / scale, low: cadr.low / scale, high: cadr.high / scale };
      expect(words(one(shown[i]!, hasClass("figure")))).toBe(`${plusMinus(scaled)} ${unitWords}`);
      const said = words(shown[i]!);
      for (const each of [`${plusMinus(added)} per hour`, `${range(total.half_life!)} min`, "measured, paired"]) {
        expect(said).toContain(each);
      }
      expect(words(one(shown[i]!, hasClass("paid")))).toBe("Bought or built by the tester");
    }
  });

  test("decays per hour, half-lives, windows and the plain line", async () => {
    const said = words(part(await pageOf(trial.id), "rates"));
    const { total, natural } = trial.analysis.results[0]!;
    for (const decay of [total, natural]) {
      expect(said).toContain(plusMinus(decay.k));
      expect(said).toContain(range(decay.half_life!));
      const [{ window, run, background, log_linear: line }] = decay.counters as [DecayOut];
      expect(said).toContain(`Log ${run + 1}: ${window.from} to ${window.to} s after its first row`);
      expect(said).toContain(`${window.n} readings kept (${window.why})`);
      const level = figures(background.value, 2 * background.u);
      expect(said).toContain(`falls towards B = ${level.value} ± ${level.expanded} per cm³`);
      expect(said).toContain(`the plain line took B = ${Number(line!.background!.toPrecision(4))} per cm³`);
      expect(said).toContain(plusMinus({ value: line!.k, low: line!.k - 2 * line!.u, high: line!.k + 2 * line!.u }));
    }
  });

  test("the budget, largest first, with shares that add up and bars as long as they say", async () => {
    const { budget } = trial.analysis.results[0]!;
    const table = part(await pageOf(trial.id), "budget");
    const rows = all(one(table, "tbody"), "tr");
    const sorted = [...budget].sort((a, b) => Math.abs(b.share) - Math.abs(a.share));
    expect(rows).toHaveLength(budget.length);
    const shares = rows.map((row) => numbers(words(all(row, "td")[1]!).replace("−", "-"))[0]!);
    expect(Math.abs(shares.reduce((a, b) => a + b) - 100)).toBeLessThanOrEqual(2);
    const widths = rows.map((row) => Number(one(row, "rect").attributes.width));
    for (const [i, { source, u, share }] of sorted.entries()) {
      expect(words(all(rows[i]!, "th")[0]!)).not.toContain(source);
      expect(Number(words(all(rows[i]!, "td")[0]!))).toBeCloseTo(u, Math.max(0, 1 - Math.floor(Math.log10(u))) - 0.01);
      expect(shares[i]! / 100).toBeCloseTo(share, 1.9);
      if (share > 0.02) expect(widths[i]! / widths[0]!).toBeCloseTo(share / sorted[0]!.share, 1.9);
    }
  });

  test("conditions, and what was not stated", async () => {
    const stored = await store(
      target,
      key,
      sampleTrial(2, {
        room: {
          label: "Net store",
          length: { value: 5, unit: "m" },
          width: { value: 3, unit: "m" },
          height: { value: 8, unit: "ft" },
          ventilation: "off",
          mixing_fan: "on",
          temperature: { value: 19, unit: "Cel", u: 0.5 },
        },
        counters: [
          {
            id: "c1",
            principle: "photometer",
            model: "grey box",
            dead_time: { value: 3, unit: "us" },
            position: "on a stool",
          },
        ],
        noise: [
          {
            quantity: "L_pA",
            level: { value: 40, unit: "dB" },
            background: { value: 38, unit: "dB" },
            distance: { value: 1, unit: "m" },
            meter: "phone",
          },
        ],
        power: { value: 38, unit: "W" },
        trials_made: 3,
        interest: "maker_or_seller",
      }),
    );
    const page = await pageOf(stored.id);
    const said = words(part(page, "conditions"));
    for (const each of [
      "Net store",
      "5 m by 3 m by 8 ft",
      "from its sides; where no uncertainty is stated, a standard one of 2\u00a0% is taken (common practice)",
      "19.0 ± 1.0 °C",
      "grey box, photometer, which weighs by scattered light; stood on a stool; dead time 3 µs",
      "38 W",
      "3, published or not",
      "tested by its maker or seller",
      "Not stated: specimen, filter, humidity.",
    ]) {
      expect(said).toContain(each);
    }
    expect(words(part(page, "noise"))).toContain("the background was nearly as loud: nothing can be told");
    expect(words(part(page, "trial-bands"))).toContain("Tested by its maker or seller");
  });

  test("links to its readings, its cleaner and the entries it counts in", async () => {
    const links = all(await pageOf(trial.id), "a").map(({ attributes }) => attributes.href!);
    const entries = trial.entries as { id: string; band: string }[];
    expect(entries.map(({ band }) => band)).toEqual(
      trial.analysis.results.filter(({ band }) => band.kind === "standard").map(({ band }) => band.name),
    );
    const wanted = [
      `/configurations/${trial.configuration.id}?setting=High&band=${entries[0]!.band}`,
      ...entries.map(({ id }) => `/entries/${id}`),
      ...[0, 1, 2].map((n) => `/v1/trials/${trial.id}/runs/${n}/series.csv`),
      `/v1/trials/${trial.id}`,
    ];
    for (const each of wanted) expect(links).toContain(each);
    for (const each of wanted.filter((href) => href.startsWith("/v1/"))) {
      expect((await target.request(each)).status).toBe(200);
    }
  });
});

describe("decays are drawn as they were fitted", () => {
  test("each fit begins at its own window and level, with its background and its residuals", async () => {
    const page = await pageOf(trial.id);
    const { total, natural } = trial.analysis.results[0]!;
    for (const [phase, decay] of [
      ["natural", natural.counters[0]!],
      ["total", total.counters[0]!],
    ] as const) {
      const of = `run-${decay.run}`;
      const svg = drawing(page, of);
      const {
        "data-left": left,
        "data-right": right,
        "data-from": from,
        "data-to": to,
      } = one(svg, ({ attributes }) => attributes["data-from"] !== undefined).attributes as Record<string, string>;
      const x = (minutes: number) =>
        Number(left) + ((minutes - Number(from)) / (Number(to) - Number(from))) * (Number(right) - Number(left));
      const fit = numbers(one(svg, hasClass(`fit-${phase}`)).attributes.d!);
      expect(fit[0]).toBeCloseTo(x(decay.window.from / 60), 0.5);
      expect(fit.at(-2)).toBeCloseTo(x(decay.window.to / 60), 0.5);
      // Heights on a logarithmic axis: two ticks give the scale.
      const ticks = all(svg, "text").flatMap((text) => {
        return text.attributes["text-anchor"] === "end"
          ? [[Number(words(text)), Number(text.attributes.y) - 4] as const]
          : [];
      });
      const [[low, lowY], [high, highY]] = [ticks[0]!, ticks.at(-1)!];
      const y = (level: number) => lowY + (Math.log(level / low) / Math.log(high / low)) * (highY - lowY);
      expect(Math.abs(fit[1]! - y(decay.background.value + decay.amplitude))).toBeLessThan(0.3);
      expect(all(drawing(page, `${of}-residuals`), hasClass(`zero-${phase}`))).toHaveLength(1);
    }
  });

  test("marks are named, what was left out is crossed and counted, what was cropped is told", async () => {
    const stored = await store(target, key, markedLog(3));
    const page = await pageOf(stored.id);
    const { dropped } = stored.analysis;
    const cropped = dropped.find(({ reason }) => reason === "cropped")!.count;
    const spikes = dropped.find(({ reason, channel }) => reason === "spike" && channel === "0.1-1.0")!.count;
    expect(spikes).toBeGreaterThanOrEqual(2);
    for (const size of ["wide", "narrow"]) {
      const svg = drawing(page, "run-0", size);
      expect(all(svg, hasClass("mark-name")).map(words)).toEqual(["feeding ends", "cleaner on"]);
      expect(one(svg, hasClass("left-out")).attributes.d!.match(/M/g)).toHaveLength(spikes);
    }
    const said = words(one(page, ({ attributes }) => attributes.id === "decays"));
    expect(said).toContain(`rows outside the part the tester chose (${cropped})`);
    expect(said).toContain(`readings that stand alone, far from their neighbours (${spikes})`);
  });

  test("points and tables stay short", async () => {
    const tS = Array.from({ length: 20_000 }, (_, i) => i);
    const values = tS.map((t) => 5 + 900 * Math.exp((-2 * t) / 3600) * (1 + 0.01 * Math.sin(t)));
    const channels = [{ id: "n1", quantity: "number", unit: "1/cm3", from_um: 0.3, to_um: 1, values }];
    const runs = [{ role: "total", series: { t: { unit: "s", values: tS }, channels } }];
    const long = await store(target, key, sampleTrial(4, { runs }));
    const page = await pageOf(long.id);
    const points = one(drawing(page, "run-0"), hasClass("reading")).attributes.d!.match(/M/g)!;
    expect(points.length).toBeLessThanOrEqual(900);
    expect(points.length).toBeGreaterThan(800);
    const decays = one(page, ({ attributes }) => attributes.id === "decays");
    for (const table of all(decays, "table")) expect(all(table, "tr").length).toBeLessThanOrEqual(31);
  });

  test("a channel is chosen by a link, in words", async () => {
    const page = await pageOf(trial.id);
    const nav = part(page, "trial-choices");
    const channel = all(nav, "a").find((link) => words(link) === "n1")!;
    const chosen = await pageOf(trial.id, new URL(channel.attributes.href!, "http://here").search);
    expect(words(drawing(chosen, "run-2"))).toContain("n1 (per cm³)");
    expect(words(one(part(chosen, "trial-choices"), ({ attributes }) => "aria-current" in attributes))).toBe("n1");
    expect(words(part(chosen, "rates"))).toContain(
      plusMinus(trial.analysis.results.find(({ band }) => band.name === "c1/n1")!.total.k),
    );
  });
});
