import { expect } from "vitest";
import { figures, plusMinus } from "../../../api/pages/figures.ts";
import type { RankedEntry } from "../../../api/wire/leaderboard.ts";
import { newKey, store } from "../../support/client.ts";
import { type InProcess, startInProcess } from "../../support/in-process.ts";
import { SAMPLE_CONFIGURATION, sampleTrial, withoutFlow } from "../../support/sample-trial.ts";
import { all, type Element, one, parseHtml, words } from "./html-tree.ts";

/** The list of results as a page, over a few boxes that differ in everything it filters by. */
export interface ListedBoxes extends InProcess {
  /** A page as a tree; fails where it is answered with another status. */
  get(path: string, status?: number): Promise<Element>;
}

export async function startListedBoxes(): Promise<ListedBoxes> {
  const target = await startInProcess();
  const key = await newKey(target);
  for (const box of BOXES) await store(target, key, trialOf(box));
  // Another laboratory with readings of its own, which was paid, another aerosol: the twins are mixed, and have two rooms.
  const again = { aerosol: { kind: "incense" }, interest: "paid", note: "once more" };
  const other = await newKey(target);
  for (const twin of [BOXES[2], BOXES[3]]) await store(target, other, trialOf({ ...twin, seed: 103 }, again));
  return {
    ...target,
    async get(path, status = 200) {
      const answer = await target.request(path);
      const text = await answer.text();
      expect([path, answer.status, answer.status === status ? "" : text.slice(0, 300)]).toEqual([path, status, ""]);
      return parseHtml(text);
    },
  };
}

export const HOSTILE = `</bdi><script>alert(1)</script>"'&\u202Eeb =HYPERLINK("http://x")`;

/** One simulated cleaner in rooms said to be of other volumes: CADR goes with the volume. */
const BOXES = [
  { title: "Large box", seed: 1, volume: 80, price: [90, "USD"], noise: [60, 20], power: 90, aerosol: "incense" },
  { title: "Bounded box", seed: 2, volume: 60, price: [70, "EUR"], noise: [45, 41], power: 30, aerosol: "salt" },
  { title: "Twin one", seed: 3, volume: 40, price: [100, "EUR"], noise: [46, 20], power: 30, aerosol: "salt" },
  { title: "Twin two", seed: 3, volume: 40, price: [100, "EUR"], noise: [47, 20], power: 32, aerosol: "salt" },
  { title: HOSTILE, seed: 4, volume: 30, price: null, noise: null, power: null, aerosol: "salt" },
  { title: "Unpaired box", seed: 5, volume: 25, price: [40, "EUR"], noise: [38, 20], power: 10, aerosol: "salt" },
] as const;

type Box = Omit<(typeof BOXES)[number], "seed"> & { readonly seed: number };

function trialOf(box: Box, changes: Record<string, unknown> = {}) {
  const { title, seed, volume, price, noise, power, aerosol } = box;
  const dBA = (value: number) => ({ value, unit: "dB(A)" });
  const level = noise && {
    quantity: "L_pA",
    level: dBA(noise[0]),
    background: dBA(noise[1]),
    distance: { value: 1, unit: "m" },
    meter: "class_1",
  };
  const trial = sampleTrial(seed, {
    configuration: {
      ...withoutFlow(SAMPLE_CONFIGURATION),
      title,
      arrangement: title,
      costs: price ? [{ item: "whole", money: { value: price[0], currency: price[1], date: "2026-09-01" } }] : [],
    },
    room: { label: title.slice(0, 80), volume: { value: volume, unit: "m3", u: 0.4 } },
    aerosol: { kind: aerosol },
    ...(level ? { noise: [level] } : {}),
    ...(power ? { power: { value: power, unit: "W" } } : {}),
    ...changes,
  });
  if (title !== "Unpaired box") return trial;
  return { ...trial, runs: trial.runs.filter(({ role }) => role !== "natural"), natural_loss: undefined };
}

export const rowsOf = (page: Element) =>
  all(page, "tbody").flatMap((body) => all(body, (it) => it.attributes.role === "row"));
export const cellOf = (row: Element, head: string) => words(one(row, (it) => it.attributes["data-head"] === head));
export const titlesOf = (page: Element) => rowsOf(page).map((row) => words(one(row, "a")).replace(/, [^,]*$/, ""));
export const formOf = (page: Element) => one(page, (it) => it.tag === "form" && it.attributes.action === "/");
export const linkOf = (page: Element, text: string) =>
  one(page, (it) => it.tag === "a" && words(it) === text).attributes.href!;

/** What a browser sends of a form as it stands. */
export function submitted(form: Element): string {
  const pairs: [string, string][] = all(form, ({ tag }) => tag === "input" || tag === "select").flatMap(
    ({ tag, attributes, children }) => {
      const options = children as Element[];
      const chosen = options.find((option) => "selected" in option.attributes) ?? options[0];
      const value = tag === "select" ? chosen!.attributes.value : attributes.value;
      return attributes.type === "checkbox" && !("checked" in attributes)
        ? []
        : [[attributes.name!, value ?? ""] as [string, string]];
    },
  );
  return `${form.attributes.action}?${new URLSearchParams(pairs)}`;
}

export function noiseWords({ noise }: RankedEntry): string {
  if (noise === null) return "not measured";
  return noise.value === null ? `under ${figures(noise.high, 1).value} dB(A)` : `${plusMinus(noise)} dB(A)`;
}
