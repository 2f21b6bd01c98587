import type { Spread } from "../../analysis/expected-elsewhere.ts";
import { bandPhrase, plusMinus, unitWords } from "../pages/figures.ts";
import { inUnit } from "../pages/quantity.tsx";
import type { FlowUnit } from "../pages/reader.ts";
import { complaintWords } from "../pages/submit/complaint-words.ts";
import { fieldOfPointer } from "../pages/submit/field-of-pointer.ts";
import { fieldInPlace } from "../pages/submit/field-words.ts";
import type { FieldName, Slot } from "../pages/submit/form-fields.ts";
import type { FieldComplaint } from "../pages/submit/form-reader.ts";
import { Preview, type PreviewProps } from "../pages/submit/preview.tsx";
import { columnsShown, drawnRuns, hindrance, isLookedAt, isSizeless, lookedAt } from "../pages/submit/preview-runs.ts";
import { type FormLog, trialFromForm } from "../pages/submit/trial-from-form.ts";
import type { AnalysisOut } from "../wire/analysis.ts";
import { analyseInBrowser } from "./analyse-in-browser.ts";
import { askServer } from "./ask-server.ts";
import type { Complaint } from "./complaints-in-page.ts";
import { keepingFocus } from "./form-state.ts";
import { addGrips } from "./mark-grips.ts";

/** What came of a look: what is wrong, what it says in a sentence, and when the log began, where it is stamped. */
export interface Looked {
  readonly wrong: readonly Complaint[];
  readonly sentence: string;
  readonly startMs: number | null;
}

type Shown = Omit<PreviewProps, "flow" | "complaints">;

/** Analyses the logs as the form stands and shows what they say in `#preview`. */
export async function look(
  form: HTMLFormElement,
  fields: ReadonlyMap<string, string>,
  logs: ReadonlyMap<Slot, FormLog>,
  isCurrent: () => boolean,
): Promise<Looked | null> {
  const made = trialFromForm(fields, logs);
  const columns = columnsShown(fields, logs);
  const isSized = !isSizeless(made.complaints);
  const nothing: Shown = { analysis: null, isSized, runs: [], columns };
  const wanting = hindrance(made.complaints);
  if (wanting) {
    show(form, nothing, made.complaints);
    return { wrong: made.complaints, sentence: `Nothing to show yet. ${inPlace(wanting)}`, startMs: null };
  }
  const spread = JSON.parse(form.dataset.spread ?? "null") as Spread | null;
  const answered = await analyseInBrowser(lookedAt(made), made.files, spread);
  if (!answered) return lookByServer(fields, logs, isCurrent);
  const { analysis, prepared, problem } = answered;
  const refused = problem && problem.code !== "no-result" ? complaintsOf(problem, fields, made.trial) : [];
  const complaints = [...made.complaints, ...refused.filter(isBesideField)];
  if (!isCurrent()) return null;
  show(form, prepared && analysis ? { analysis, isSized, runs: drawnRuns(prepared), columns } : nothing, complaints);
  return {
    wrong: [...made.complaints, ...refused],
    sentence: [
      analysis ? sentenceOf(analysis, isSized, flowOf(form)) : (refused[0]?.detail ?? problem!.detail),
      ...made.complaints.filter(({ field }) => isLookedAt(field)).map(inPlace),
    ].join(" "),
    startMs: prepared?.runs.find(({ source }) => "read" in source)?.input.startMs ?? null,
  };
}

/** What a problem says about fields, or about none of them. */
export function complaintsOf(
  problem: { readonly detail: string; readonly errors?: readonly { pointer: string; detail: string }[] },
  fields: ReadonlyMap<string, string>,
  trial: Readonly<Record<string, unknown>>,
): Complaint[] {
  if (!problem.errors?.length) return [{ field: null, detail: complaintWords(problem.detail) }];
  return problem.errors.map(({ pointer, detail }) => {
    return { field: fieldOfPointer(pointer, fields, trial), detail: complaintWords(detail) };
  });
}

function inPlace({ field, detail }: FieldComplaint): string {
  return `${fieldInPlace(field)}: ${detail}`;
}

function isBesideField(complaint: Complaint): complaint is FieldComplaint {
  return complaint.field !== null;
}

function flowOf(form: HTMLFormElement): FlowUnit {
  return form.dataset.flow === "[cft_i]/min" ? "[cft_i]/min" : "m3/h";
}

function show(form: HTMLFormElement, shown: Shown, complaints: readonly FieldComplaint[]): void {
  const html = String(<Preview {...shown} flow={flowOf(form)} complaints={complaints} />);
  const preview = document.getElementById("preview")!;
  const folds = () => [...preview.querySelectorAll("details")];
  // What opened by itself shuts by itself, unless somebody is at work in it.
  const isKept = (fold: HTMLDetailsElement) =>
    fold.open && (fold.dataset.auto === undefined || fold.contains(document.activeElement));
  const open = new Set(folds().flatMap((fold) => (isKept(fold) ? [fold.querySelector("summary")?.textContent] : [])));
  keepingFocus(() => {
    preview.innerHTML = html;
    for (const fold of folds()) if (open.has(fold.querySelector("summary")?.textContent)) fold.open = true;
    if (shown.analysis) addGrips(preview, shown.runs, shown.analysis.phases);
  });
}

/** Where this browser lacks what it takes, or the test leans on another: the server's own preview, without grips. */
async function lookByServer(
  fields: ReadonlyMap<string, string>,
  logs: ReadonlyMap<Slot, FormLog>,
  isCurrent: () => boolean,
): Promise<Looked | null> {
  const page = await askServer(fields, "preview", logs);
  if (!isCurrent()) return null;
  if (!page) return { wrong: [], sentence: "No preview: the server cannot be reached.", startMs: null };
  const made = page.getElementById("preview");
  keepingFocus(() =>
    document.getElementById("preview")!.replaceChildren(...(made ? document.importNode(made, true).childNodes : [])),
  );
  const wrong = [...page.querySelectorAll("form p.error[id$='-error']")].map((error) => {
    const field = error.id.slice(2, -"-error".length).replaceAll("-", ".") as FieldName;
    return { field, detail: error.textContent ?? "" };
  });
  const figure = made?.querySelector(".figure")?.textContent;
  const sentence = figure
    ? `Clean air delivery rate ${figure}.`
    : (wrong[0]?.detail ?? "No rate can be told from this yet.");
  return { wrong, sentence: `${sentence} (The server was sent the log for this, and keeps none.)`, startMs: null };
}

/** The preview in one sentence, to be read out. */
function sentenceOf({ results }: AnalysisOut, isSized: boolean, flow: FlowUnit): string {
  const result = results.find(({ band }) => band.kind === "standard") ?? results[0];
  if (!result) return "No clean air delivery rate can be told from this yet; why stands below.";
  if (!isSized) return `The cleaner makes the readings fall faster by ${plusMinus(result.air_changes)} per hour.`;
  const cadr = inUnit(result.cadr, flow);
  return `Clean air delivery rate ${plusMinus(cadr)} ${unitWords(cadr.unit)} for ${bandPhrase(result.band.name)}.`;
}
