import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type CDPSession,
  chromium,
  type Page,
} from "playwright-core";
import { chromiumPath } from "./find-chromium.ts";
import { type Target, targets } from "./targets.ts";

export interface Opened {
  readonly target: Target & { readonly url: string };
  /** A page of a context of its own: no cookie, no draft, of another. */
  open(options?: BrowserContextOptions): Promise<Page>;
  /** What no page may do, since last asked: errors, dialogs, requests elsewhere, requests that fail. */
  complaints(): string[];
  stop(): Promise<void>;
}

/** A served registry and Debian's chromium before it. */
export async function openBrowser(): Promise<Opened> {
  const target = (await targets()
    .find(({ name }) => name === "node server")!
    .start()) as Opened["target"];
  const browser: Browser = await chromium.launch({ executablePath: chromiumPath!, args: ["--no-sandbox"] });
  const told: string[] = [];
  return {
    target,
    async open(options) {
      const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
      context.setDefaultTimeout(10_000);
      listen(context, target.url, (complaint) => told.push(complaint));
      return context.newPage();
    },
    complaints: () => told.splice(0),
    async stop() {
      await browser.close();
      await target.stop();
    },
  };
}

/** A page that answers 404 or 422 on purpose is told by the browser as one that failed to load: tests look at the status. */
const EXPECTED = "Failed to load resource";

function listen(context: BrowserContext, url: string, tell: (complaint: string) => void): void {
  context.on("console", (message) => {
    if (message.type() === "error" && !message.text().startsWith(EXPECTED)) tell(`console: ${message.text()}`);
  });
  context.on("weberror", (error) => tell(`script: ${error.error().message}`));
  context.on("dialog", (dialog) => {
    tell(`dialog: ${dialog.message()}`);
    return dialog.dismiss();
  });
  context.on("request", (request) => {
    if (!request.url().startsWith(`${url}/`)) tell(`asked elsewhere: ${request.url()}`);
  });
  context.on("requestfailed", (request) => {
    const why = request.failure()?.errorText;
    if (why !== "net::ERR_ABORTED") tell(`${why}: ${request.url()}`); // aborted: left for the next page
  });
  context.on("response", (response) => {
    const isPage = response.request().isNavigationRequest();
    if (!isPage && response.status() >= 400) tell(`${response.status()}: ${response.url()}`);
  });
}

/** What a session has set lasts as long as it does. */
const sessions = new WeakMap<Page, Promise<CDPSession>>();

/** Whether a page's own scripts run from its next load on; the tests' checks run only while they do. */
export async function runScripts(page: Page, enabled: boolean): Promise<void> {
  const session = sessions.get(page) ?? page.context().newCDPSession(page);
  sessions.set(page, session);
  await (await session).send("Emulation.setScriptExecutionDisabled", { value: !enabled });
}
