import { plusMinus, range } from "../../../api/pages/figures.ts";
import type { EntryOut } from "../../../api/wire/entry.ts";
import { leaderboard, newKey, store } from "../../support/client.ts";
import { startInProcess } from "../../support/in-process.ts";
import { bearer, json, SAMPLE_CONFIGURATION, sampleTrial } from "../../support/sample-trial.ts";
import { all, type Element, hasClass, one, parseHtml, words } from "./html-tree.ts";

const level = (value: number) => ({ value, unit: "dB(A)" });
/** A box of three settings, two of them tested, one in three rooms. */
export const BOX = {
  ...SAMPLE_CONFIGURATION,
  settings: [
    { label: "Low", stated_flow: { value: 300, unit: "m3/h" } },
    {
      label: "High",
      stated_power: { value: 38, unit: "W" },
      stated_noise: { quantity: "L_pA", level: level(46), distance: { value: 1, unit: "m" } },
    },
    { label: "Turbo" },
  ],
  costs: [
    ...SAMPLE_CONFIGURATION.costs,
    { item: "filter_set", money: { value: 20, currency: "EUR", date: "2026-09-01" } },
  ],
  filter_life: { value: 6, unit: "mo" },
  plan_url: `https://plans.example/box?"><script>alert(3)</script>`,
};
const noise = [{ quantity: "L_pA", level: level(50), distance: { value: 1, unit: "m" }, meter: "class_2" }];
/** A room of 30 m³, or of another volume. */
export const at = (label: string, value = 30) => ({ label, volume: { value, unit: "m3", u: 0.6 } });

export type DescribedBoxes = Awaited<ReturnType<typeof startDescribedBoxes>>;

/**
 * A registry in this process with one box: at its high setting two tests in one room that share a natural run, one in another
 * room of the same tester whose volume was corrected, one unpaired with incense by somebody else who was paid, and one
 * withdrawn; at its low setting one.
 */
export async function startDescribedBoxes() {
  const target = await startInProcess();
  const send = async (path: string, body: unknown, key: string, status: number) => {
    const answer = await target.request(path, json(body, bearer(key)));
    if (answer.status !== status) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer;
  };
  const data = async <T>(path: string) => (await (await target.request(path)).json()) as T;
  const get = async (path: string, status = 200) => {
    const answer = await target.request(path);
    if (answer.status !== status) throw new Error(`${path}: ${answer.status}`);
    return parseHtml(await answer.text());
  };
  const [slack, other, third] = [await newKey(target, "Slack water"), await newKey(target), await newKey(target)];
  const back = await store(
    target,
    slack,
    sampleTrial(1, { configuration: BOX, room: at("Back room"), noise, power: { value: 40, unit: "W" } }),
  );
  const shared = await store(
    target,
    slack,
    sampleTrial(2, {
      configuration: BOX,
      room: at("Back room"),
      runs: [{ role: "natural", from_run: `${back.id}/runs/1` }, sampleTrial(2).runs[2]],
    }),
  );
  const front = await store(target, slack, sampleTrial(3, { configuration: BOX, room: at("Front room") }));
  const volume = { value: 31, unit: "m3", u: 0.6 };
  const { id: room } = front.room as { id: string };
  const reason = "the alcove was forgotten";
  await send(`/v1/rooms/${room}/revisions`, { volume, reason }, slack, 201);
  const unpaired = sampleTrial(4).runs.filter(({ role }) => role !== "natural");
  const paid = await store(
    target,
    other,
    sampleTrial(4, { configuration: BOX, runs: unpaired, interest: "paid", aerosol: { kind: "incense" } }),
  );
  const withdrawn = await store(target, third, sampleTrial(5, { configuration: BOX }));
  await send(`/v1/trials/${withdrawn.id}/withdrawal`, { reason: "the fan was unplugged" }, third, 200);
  await store(target, other, sampleTrial(6, { configuration: BOX, setting: "low" }));
  const trials = { back, shared, front, paid, withdrawn };
  const configuration = back.configuration.id;
  const { entries } = await leaderboard(target, "?unpaired=include");
  const entry = await data<EntryOut>(`/v1/entries/${entries.find(({ setting }) => setting === "High")!.id}`);
  /** The page's setting that is open. */
  const opened = async (query = "?setting=high") => {
    const page = await get(`/configurations/${configuration}${query}`);
    return one(page, (each) => hasClass("setting")(each) && each.attributes.open !== undefined);
  };
  /** The words of a page's content. */
  const main = async (path: string) => words(one(await get(path), "main")).replaceAll("\u00a0", " ");
  return { target, trials, configuration, entry, send, data, get, opened, main };
}

/** What stands beside a name in the facts of a setting. */
export function factOf(section: Element, name: string): string {
  const list = one(section, hasClass("facts"));
  return words(all(list, "dd")[all(list, "dt").map(words).indexOf(name)]!);
}

export function rowsOf(table: Element): Element[] {
  return all(one(table, "tbody"), "tr");
}

/** The first table whose first column is so headed. */
export function tableWith(section: Element, head: string): Element {
  return all(section, "table").find((table) => words(all(table, "th")[0]!) === head)!;
}

/** A quantity as pages write it, without its unit. */
export function written(q: { value: number; low: number; high: number }): string {
  return Math.abs(q.high + q.low - 2 * q.value) > 0.05 * (q.high - q.low) ? range(q) : plusMinus(q);
}
