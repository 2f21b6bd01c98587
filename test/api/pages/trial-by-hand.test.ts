import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { figures } from "../../../api/pages/figures.ts";
import type { LeaderboardOut } from "../../../api/wire/leaderboard.ts";
import { newKey, type StoredTrial, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { sampleTrial } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, words } from "./html-tree.ts";

describe("a trial can be checked by what its page says", () => {
  let target: InProcess;
  let key: string;
  let trial: StoredTrial;
  beforeAll(async () => {
    target = await startInProcess();
    key = await newKey(target);
    trial = await store(target, key, sampleTrial(1));
  });
  afterAll(() => target.stop());

  const pageOf = async (id: string) => parseHtml(await (await target.request(`/trials/${id}`)).text());
  const part = (page: Element, name: string) => one(page, hasClass(name));

  test("the plain line is what the readings give by hand, in the window and with the background that are shown", async () => {
    const said = words(part(await pageOf(trial.id), "rates"));
    const [, log, from, to, took] =
      /Log (\d): ([\d.]+) to ([\d.]+) s after its first row, .*?; the plain line took B = ([\d.]+)/.exec(said)!;
    const csv = await (await target.request(`/v1/trials/${trial.id}/runs/${Number(log) - 1}/series.csv`)).text();
    const rows = csv
      .trim()
      .split(/\r?\n/)
      .slice(1)
      .map((line) => line.split(",").map(Number) as [number, number]);
    const inside = rows
      .filter(([t]) => t >= Number(from) && t <= Number(to))
      .map(([t, c]) => [t / 3600, c - Number(took)]);
    const highest = Math.max(...inside.map(([, c]) => c!));
    const end = inside.findIndex(([, c]) => !(c! > 0.05 * highest));
    const used = end < 0 ? inside : inside.slice(0, end);
    const mean = (of: number[]) => of.reduce((a, b) => a + b) / of.length;
    const [t, ln] = [used.map(([at]) => at!), used.map(([, c]) => Math.log(c!))];
    const sum = (f: (i: number) => number) => t.reduce((all, _, i) => all + f(i), 0);
    const slope = sum((i) => (t[i]! - mean(t)) * (ln[i]! - mean(ln))) / sum((i) => (t[i]! - mean(t)) ** 2);
    const line = trial.analysis.results[0]!.total.counters[0]!.log_linear!;
    expect(Math.abs(-slope / line.k - 1)).toBeLessThan(0.002); // a reading or two that were left out are in here
  });

  test("the budget ends in the whole, times t", async () => {
    const { cadr } = trial.analysis.results[0]!;
    const [whole, expanded] = all(one(part(await pageOf(trial.id), "budget"), "tfoot"), "tr").map(words);
    const half = (cadr.high - cadr.low) / 2;
    expect(whole).toContain(`Together, u${figures(cadr.u, cadr.u).value}`);
    expect(expanded).toContain(`× ${(half / cadr.u).toFixed(2)} `);
    expect(expanded).toContain(`U, the ± above${figures(half, half).value}`);
  });

  test("it says where it stands in the list of each band, and is pooled with others only where it is", async () => {
    const { id } = await store(target, key, sampleTrial(30, { setting: "low" }));
    const places = () => pageOf(id).then((page) => all(page, hasClass("place")));
    const alone = (await places())[0]!;
    const { entries } = (await (await target.request("/v1/leaderboard")).json()) as LeaderboardOut;
    const { rank } = entries.find(({ setting }) => setting === "Low")!;
    const ordinal = ["1st", "2nd", "3rd"][rank - 1];
    expect(words(alone)).toContain(`Listed ${ordinal} of ${entries.length} under 0.1–1.0 µm, on this test alone`);
    expect(all(alone, "a").map(({ attributes }) => attributes.href)).toContain("/?band=0.1-1.0");
    await store(target, await newKey(target), sampleTrial(31, { setting: "low" }));
    expect(words((await places())[0]!)).toContain("pooled with 1\u00a0other test");
  });
});
