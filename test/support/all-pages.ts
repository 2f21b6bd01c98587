import type { Page } from "playwright-core";
import { toCsv } from "../../analysis/simulate/to-csv.ts";
import { pinOfResult } from "../../api/pins/current-pin.ts";
import { pinPath } from "../../api/pins/pin.ts";
import type { AnalysisOut } from "../../api/wire/analysis.ts";
import type { EntryOut } from "../../api/wire/entry.ts";
import type { RankedEntry } from "../../api/wire/leaderboard.ts";
import type { Request, StoredPlan } from "../../seed/fill-demo.ts";
import { runScripts } from "./browser.ts";
import { sampleLog } from "./sample-trial.ts";

/** Records of a filled registry that pages are asked for. */
export interface Known {
  readonly url: string;
  readonly entries: readonly RankedEntry[];
  /** Made after another one, so that it has relatives. */
  readonly configuration: string;
  readonly threeRuns: string;
  readonly fullLog: string;
  /** Paths of pinned results: of a trial and of an entry. */
  readonly pinned: { readonly trial: string; readonly entry: string };
}

export interface AnyPage {
  readonly name: string;
  readonly status: number;
  /** Goes there and answers the status it was answered with. */
  open(page: Page, known: Known): Promise<number>;
  /** Its address, where it has one. */
  path?(known: Known): string;
}

export async function findKnown(url: string, request: Request, stored: readonly StoredPlan[]): Promise<Known> {
  const get = async <T>(path: string) => (await (await request(path)).json()) as T;
  const { entries } = await get<{ entries: RankedEntry[] }>("/v1/leaderboard");
  const { configurations } = await get<{ configurations: { id: string; derived_from: string | null }[] }>(
    "/v1/configurations",
  );
  const one = (layout: string) => stored.find(({ plan }) => plan.layout === layout)!.id;
  const derived = configurations.find(({ derived_from }) => derived_from !== null) ?? configurations[0]!;
  const threeRuns = one("paired");
  const trial = await get<{ revision: number; analysis: AnalysisOut }>(`/v1/trials/${threeRuns}`);
  const entry = await get<EntryOut>(`/v1/entries/${entries[0]!.id}`);
  const pinned = {
    trial: pinPath(pinOfResult(threeRuns, trial.revision, trial.analysis)!),
    entry: pinPath({ kind: "entry", entry: entry.id, basis: "all", seq: entry.bases.all!.as_of_seq }),
  };
  return { url, entries, configuration: derived.id, threeRuns, fullLog: one("log"), pinned };
}

const ids = ({ entries }: Known, n: number) => entries.slice(0, n).map(({ id }) => id);

const PAGES_ASKED_FOR: readonly AnyPage[] = [
  at("the list", () => "/"),
  at("the list, filtered", () => "/?band=0.5-3.0&kind=user_built&noise_max=60&min_rooms=1&unpaired=include&unit=cfm"),
  at("the list, nothing found", () => "/?noise_max=1"),
  at("the list, a wrong filter", () => "/?noise_max=loud", 422),
  at("configurations", () => "/configurations"),
  at("a configuration", ({ configuration }) => `/configurations/${configuration}`),
  at("an entry", (known) => `/entries/${ids(known, 1)}`),
  at("a trial of three runs", ({ threeRuns }) => `/trials/${threeRuns}`),
  at("a trial of one log", ({ fullLog }) => `/trials/${fullLog}`),
  at("the log", () => "/log"),
  at("withdrawing a test", ({ threeRuns }) => `/trials/${threeRuns}/withdrawal`),
  at("putting a test right", ({ threeRuns }) => `/trials/${threeRuns}/amendment`),
  at("a trial as quoted", ({ pinned }) => pinned.trial),
  at("an entry as quoted", ({ pinned }) => pinned.entry),
  at("adding a test", () => "/submit"),
  at("comparing, nothing chosen", () => "/compare"),
  at("comparing two", (known) => `/compare?entries=${ids(known, 2)}`),
  at("comparing three", (known) => `/compare?entries=${ids(known, 3)}`),
  at("my room", () => "/room"),
  at("my room, answered", () => "/room?in=m&length=5&width=4&height=2.5&target=air_changes&air_changes=5"),
  at(
    "my room, cleared in time",
    () => "/room?in=ft&area=220&height=8&target=clearance&reduction=99&minutes=30&price=0.30&currency=EUR&hours=6",
  ),
  at("my room, a wrong value", () => "/room?volume=vast&length=vast", 422),
  at("planning a test", () => "/plan"),
  at("a planned test", () => "/plan?volume=30&cadr=240"),
  at("a planned test, wrong values", () => "/plan?volume=30&cadr=much", 422),
  at("the method", () => "/method"),
  at("safety", () => "/safety"),
  at("for programs", () => "/programs"),
  at("what a problem means", () => "/problems"),
  at("nothing there", () => "/entries/ent-none", 404),
];

function at(name: string, path: (known: Known) => string, status = 200): AnyPage {
  return {
    name,
    status,
    path,
    async open(page, known) {
      await page.context().clearCookies(); // the unit of another page
      const answer = await page.goto(known.url + path(known));
      return answer!.status();
    },
  };
}

/** Fills a form of a page as a browser without scripts does, and answers what that came to. */
function sent(name: string, path: string, fill: (page: Page) => Promise<void>, status = 200): AnyPage {
  return {
    name,
    status,
    async open(page, known) {
      await page.context().clearCookies();
      await runScripts(page, false);
      await page.goto(known.url + path);
      const answer = page.waitForResponse((response) => response.request().method() === "POST");
      await fill(page);
      const status = (await answer).status();
      await page.waitForLoadState();
      await runScripts(page, true);
      return status;
    },
  };
}

const press = (page: Page, name: string) => page.getByRole("button", { name }).click();

async function fillLog(page: Page): Promise<void> {
  const buffer = Buffer.from(toCsv(sampleLog(11).series).replace("n1", "0.3-1.0 um"));
  await page.setInputFiles("#f-full_log-file", { name: "log.csv", mimeType: "text/csv", buffer });
  await page.fill("#f-room-volume", "30");
}

const PAGES_SENT_FOR: readonly AnyPage[] = [
  sent("adding a test, looked at", "/submit", async (page) => {
    await fillLog(page);
    await press(page, "Show what it says");
  }),
  sent("adding a test, with a key", "/submit", async (page) => {
    await fillLog(page);
    await press(page, "Make a new key");
  }),
  sent("adding a test, refused", "/submit", (page) => press(page, "Publish the test"), 422),
];

/** Every page there is, each in its different states. */
export const ALL_PAGES = [...PAGES_ASKED_FOR, ...PAGES_SENT_FOR];
