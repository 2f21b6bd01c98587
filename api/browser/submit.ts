import { isLookedAt } from "../pages/submit/preview-runs.ts";
import { adopt, askServer } from "./ask-server.ts";
import { showComplaints, summarise } from "./complaints-in-page.ts";
import { type Draft, discardDraft, readDraft, readLogs, saveDraft, saveLogs } from "./draft.ts";
import { fieldsOf, fill, make, whenQuiet } from "./form-state.ts";
import { KeyInPage } from "./key-in-page.ts";
import { logsIn, putFile, takeDropsAndPastes } from "./logs-in-form.ts";
import { look } from "./look.tsx";
import { publish } from "./publish-in-page.ts";
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
let attempt: Draft["attempt"] = null;
let isChanged = false;
let isOver = false;
/** Said as long as the page stands: that an earlier draft came back. */
let back = "";
/** Corrections of columns that were kept: their fields come with the first preview. */
let columnsKept: ReadonlyMap<string, string> = new Map();
let turn = 0;

const currentFields = () => new Map([...columnsKept, ...fieldsOf(form)]);

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
  columnsKept = new Map();
  status.textContent = looked.sentence;
  fillOffset(looked.startMs);
  const wrong = [...complaints, ...looked.wrong];
  showComplaints(form, isAsked ? wrong : wrong.filter(({ field }) => field !== null && touched.has(field)));
  if (isAsked) summarise(form, wrong);
  else if (wrong.length === 0) summarise(form, []);
}

function save(): void {
  if (isOver || !isChanged) return;
  const isKept = saveDraft(currentFields(), attempt);
  noteDraft(
    isKept
      ? "A draft is kept in this browser as you go. Nothing is sent before you publish."
      : "This browser keeps no draft.",
  );
}

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
const compareSoon = whenQuiet(500, async () => {
  const page = await askServer(form, "find");
  if (page) for (const id of ["found", "similar"]) adopt(form, page, id);
});

async function moreRows(): Promise<void> {
  const page = await askServer(form, "rows");
  if (page) for (const id of ["found", "similar", "parts", "noise"]) adopt(form, page, id);
}

form.addEventListener("input", (event) => {
  const { name } = event.target as HTMLInputElement;
  if (!name) return; // of this script, not of the form
  isChanged = true;
  touched.delete(name);
  saveSoon();
  if (/\.(file|text)$/.test(name)) {
    touched.add(name);
    saveLogs(fieldsOf(form));
  }
  if (isLookedAt(name) || name.startsWith("performed_")) {
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
  const asked = (event.submitter as HTMLButtonElement | null)?.value ?? "preview";
  event.preventDefault();
  save();
  if (asked === "preview") {
    await lookNow(true);
    if (!document.querySelector(".summary")) document.getElementById("result")?.scrollIntoView();
  } else if (asked === "key") {
    const wrong = await key.make(fieldsOf(form).get("handle")?.trim() ?? "");
    showComplaints(form, wrong ? [wrong] : []);
  } else if (asked === "find" || asked === "rows") await moreRows();
  else await publishNow(event.submitter as HTMLButtonElement);
});

async function publishNow(button: HTMLButtonElement): Promise<void> {
  const fields = currentFields();
  button.disabled = true;
  status.textContent = "Publishing …";
  const logs = await logsIn(fields);
  const warning = key.warning();
  const published = warning
    ? { wrong: [warning] }
    : await publish(fields, logs, attempt, (next) => {
        attempt = next;
        save();
      });
  button.disabled = false;
  status.textContent = "";
  if ("id" in published) {
    isOver = true;
    await discardDraft();
    location.assign(`/trials/${published.id}`);
    return;
  }
  showComplaints(form, published.wrong);
  summarise(form, published.wrong);
}

async function restore(): Promise<void> {
  const draft = readDraft();
  if (!draft) return;
  attempt = draft.attempt;
  const start = fieldsOf(form).get("configuration");
  const fields = new Map([...draft.fields, ...(start ? [["configuration", start] as const] : [])]);
  columnsKept = new Map([...fields].filter(([name]) => /\.(columns\.|day_month)/.test(name)));
  fill(form, fields);
  for (const [slot, file] of await readLogs()) putFile(slot, file);
  back = `Your draft of ${draft.at.slice(0, 10)} ${draft.at.slice(11, 16)} UTC is back. `;
  noteDraft("");
}

async function start(): Promise<void> {
  preview.before(status);
  const isAnswered = document.querySelector(".summary, .kept, #preview > *") !== null;
  if (!isAnswered) await restore();
  takeDropsAndPastes();
  addEventListener("pagehide", save);
  await lookNow();
  document.documentElement.dataset.scripted = "yes";
}

start();
