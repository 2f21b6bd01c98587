import { SLOTS } from "../pages/submit/form-fields.ts";
import { isOfLog } from "../pages/submit/kept-log.ts";
import { isLookedAt } from "../pages/submit/preview-runs.ts";
import { publishedAt } from "../pages/trial/published-at.ts";
import { adopt, askServer } from "./ask-server.ts";
import { type Complaint, showComplaints, summarise } from "./complaints-in-page.ts";
import { describeStored, keepDescribedChosen } from "./configuration-in-page.ts";
import { discardDraft, readDraft, readLogs, saveDraft, saveLogs } from "./draft.ts";
import { fieldsOf, fill, isHomeless, make, whenQuiet } from "./form-state.ts";
import { keep, recall } from "./kept-here.ts";
import { KeyInPage } from "./key-in-page.ts";
import { forgetLastLog, logsIn, putFile, takeDropsAndPastes } from "./logs-in-form.ts";
import { look } from "./look.tsx";
import { publish } from "./publish-in-page.ts";
import { notePublished, rememberPublished } from "./published-note.ts";
import { fillOffset, showVolume } from "./room-in-page.ts";

/* The script of the page where a test is added. The page is whole without it. */
const form = document.getElementById("test") as HTMLFormElement;
const preview = document.getElementById("preview") as HTMLElement;
const status = make("p", { id: "said", role: "status" });
const draftWords = make("span", { role: "status" });
const discard = make("button", { type: "button" }, "Discard this draft");
const draftNote = make("p", { id: "draft", class: "hint" }, draftWords, " ", discard);
const key = new KeyInPage();
const touched = new Set<string>();
let attempt: string | null = null;
let isChanged = false;
let isOver = false;
/** Said as long as the page stands: that an earlier draft came back. */
let back = "";
/** What a draft holds that the page has no control for yet: corrected columns, further rows, a stored configuration. */
let homeless = new Map<string, string>();
/** What is wrong by the last look, and what was by the last attempt to publish and was not touched since. */
let seenWrong: readonly Complaint[] = [];
let leftWrong: readonly Complaint[] = [];
let turn = 0;

const currentFields = () => new Map([...homeless, ...fieldsOf(form)]);

async function lookNow(isAsked = false): Promise<void> {
  const mine = ++turn;
  const fields = currentFields();
  showVolume(fields);
  const { logs, complaints } = await logsIn(fields);
  if (logs.size === 0 && complaints.length === 0 && !isAsked) {
    preview.replaceChildren();
    status.textContent = "";
    return;
  }
  status.textContent = "Computing …";
  await new Promise((painted) => setTimeout(painted));
  if (mine !== turn) return;
  const looked = await look(form, fields, logs, () => mine === turn);
  if (!looked || mine !== turn) return;
  house();
  status.textContent = [...complaints.map(({ detail }) => detail), looked.sentence].join(" ");
  fillOffset(looked.startMs);
  seenWrong = [...complaints, ...looked.wrong];
  // What was complained about and is seen by a look stands or falls with it.
  for (const { field } of [...leftWrong, ...(isAsked ? seenWrong : [])]) if (field) touched.add(field);
  leftWrong = leftWrong.filter(({ field }) => field === null || !isLookedAt(field));
  complain();
  if (isAsked) summarise(form, seenWrong);
}

/** Beside the fields: what was asked for, and of what is seen while one writes only what one is done with. */
function complain(): void {
  const isDone = ({ field }: Complaint) => field !== null && touched.has(field);
  showComplaints(form, [...leftWrong, ...seenWrong.filter(isDone)]);
  if (leftWrong.length + seenWrong.length === 0) summarise(form, []);
}

function house(): void {
  homeless = new Map([...homeless].filter(([name, value]) => isHomeless(form, name, value)));
}

function save(): void {
  if (isOver || !isChanged) return;
  const isKept = saveDraft(currentFields(), attempt);
  noteDraft(
    isKept
      ? `A draft is kept in this browser as you go. ${HERE}`
      : `This browser keeps no draft: publish before you leave. ${HERE}`,
  );
}

const HERE =
  "Your log stays here until you publish, unless it is said otherwise; cleaners you search for or describe are looked up.";

function noteDraft(words: string): void {
  draftWords.textContent = `${back}${words}`;
  if (!draftNote.isConnected) form.before(draftNote);
}

discard.addEventListener("click", async () => {
  isOver = true;
  await discardDraft();
  location.assign("/submit");
});

const lookSoon = whenQuiet(250, () => lookNow());
const saveSoon = whenQuiet(300, save);
const compareSoon = whenQuiet(500, () => takeFromServer("find", ["found", "similar"]));

/** Parts of the page that only the server can fill. */
async function takeFromServer(action: "find" | "rows", ids: readonly string[]): Promise<void> {
  const page = await askServer(currentFields(), action);
  if (page) for (const id of ids) adopt(page, id, currentFields());
  house();
}

const moreRows = () => takeFromServer("rows", ["found", "similar", "parts", "noise"]);

form.addEventListener("input", (event) => {
  const { name } = event.target as HTMLInputElement;
  if (!name) return; // of this script, not of the form
  isChanged = true;
  keepDescribedChosen(form, event.target as HTMLInputElement);
  homeless.delete(name);
  touched.delete(name);
  if (leftWrong.some(({ field }) => field === name)) {
    leftWrong = leftWrong.filter(({ field }) => field !== name);
    complain();
  }
  saveSoon();
  const slot = SLOTS.find((each) => name === `${each}.file`);
  if (slot && forgetLastLog(form, slot))
    for (const old of homeless.keys()) if (isOfLog(slot, old)) homeless.delete(old);
  if (/\.(file|text)$/.test(name)) {
    touched.add(name);
    saveLogs(fieldsOf(form)).then((isKept) => {
      if (!isKept && !isOver) noteDraft("This browser has no room for the log: after a reload, choose it again.");
    });
  }
  if (isLookedAt(name) || name.startsWith("performed_") || seenWrong.length > 0) {
    turn++; // a look that is under way would write over what is being written
    lookSoon();
  }
  if (name === "find" || /^described\./.test(name) || name === "configuration") compareSoon();
});

form.addEventListener("change", (event) => {
  const { name } = event.target as HTMLInputElement;
  touched.add(name);
  if (name === "performed_at") fillOffset(null);
  if (/^noise\..*\.level$/.test(name)) moreRows();
  if (isLookedAt(name)) lookSoon();
});

form.addEventListener("submit", async (event) => {
  const button = event.submitter as HTMLButtonElement | null;
  const asked = button?.value ?? "preview";
  event.preventDefault();
  save();
  if (button?.name === "copy") await describeStored(form, asked);
  else if (asked === "preview") {
    await lookNow(true);
    if (!document.querySelector(".summary")) document.getElementById("result")?.scrollIntoView();
  } else if (asked === "key") {
    const wrong = await key.make(fieldsOf(form).get("handle")?.trim() ?? "");
    leftWrong = [...leftWrong.filter(({ field }) => field !== "key" && field !== "handle"), ...(wrong ? [wrong] : [])];
    complain();
  } else if (asked === "find" || asked === "rows") await moreRows();
  else await publishNow(event.submitter as HTMLButtonElement);
});

async function publishNow(button: HTMLButtonElement): Promise<void> {
  const fields = currentFields();
  button.disabled = true;
  status.textContent = "Publishing …";
  const logs = await logsIn(fields);
  const published = await publish(fields, logs, attempt, (next) => {
    const objection = key.warning();
    if (!objection) keepAttempt(next);
    return objection;
  });
  button.disabled = false;
  status.textContent = "";
  if ("id" in published) {
    isOver = true;
    await discardDraft();
    rememberPublished(published.id);
    location.assign(publishedAt(published.id));
    return;
  }
  if (!published.isUnknown) keepAttempt(null);
  leftWrong = published.wrong;
  complain();
  summarise(form, published.wrong);
}

function keepAttempt(next: string | null): void {
  if (next === attempt) return;
  attempt = next;
  isChanged = true;
  save();
}

async function restore(): Promise<void> {
  const draft = readDraft();
  if (!draft) return;
  attempt = draft.attempt;
  const start = fieldsOf(form).get("configuration");
  const fields = new Map([...draft.fields, ...(start ? [["configuration", start] as const] : [])]);
  fill(form, fields);
  homeless = fields;
  house();
  if ([...homeless.keys()].some((name) => /^(configuration$|described|noise)/.test(name))) await moreRows();
  for (const [slot, file] of await readLogs(draft)) putFile(slot, file);
  back = `Your draft of ${draft.at.slice(0, 10)} ${draft.at.slice(11, 16)} UTC is back. `;
  noteDraft("");
}

const SCROLLED = "motefall.scrolled";

async function start(): Promise<void> {
  history.scrollRestoration = "manual";
  preview.before(status);
  const isAnswered = document.querySelector(".summary, .kept, #preview > *") !== null;
  notePublished(form);
  form.autocomplete = "off"; // what comes back is the draft's business: a browser brings the tick and the file of a test long published
  if (!isAnswered) await restore();
  takeDropsAndPastes();
  addEventListener("pagehide", () => {
    save();
    keep(SCROLLED, String(scrollY), "sessionStorage");
  });
  addEventListener("pageshow", ({ persisted }) => persisted && isOver && location.reload());
  const hint = document.getElementById("f-full_log-file-hint");
  hint?.append(" Or drop or paste it anywhere on this page.");
  await lookNow();
  // The page grows by its preview only now: the browser by itself would have gone to the end of a shorter one.
  const y = Number(recall(SCROLLED, "sessionStorage"));
  const [visit] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
  if (visit?.type !== "navigate" && !location.hash && !document.querySelector(".published")) scrollTo(0, y);
  document.documentElement.dataset.scripted = "yes";
}

start();
