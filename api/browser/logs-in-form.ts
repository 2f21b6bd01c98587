import { plainName, type UploadedFile } from "../body.ts";
import { idOf, SLOTS, type Slot } from "../pages/submit/form-fields.ts";
import type { FieldComplaint } from "../pages/submit/form-reader.ts";
import { FORGOTTEN, isOfLog, logsOfForm } from "../pages/submit/kept-log.ts";
import { make } from "./form-state.ts";

/** The logs of a form as its files, its pasted text or an earlier page hold them. */
export async function logsIn(fields: ReadonlyMap<string, string>): Promise<Awaited<ReturnType<typeof logsOfForm>>> {
  const files = new Map<string, UploadedFile>();
  const lost: FieldComplaint[] = [];
  for (const slot of SLOTS) {
    const file = fileInput(slot)?.files?.[0];
    if (!file) continue;
    try {
      files.set(`${slot}.file`, { name: plainName(file.name), bytes: await bytesOf(file) });
    } catch {
      lost.push({ field: `${slot}.file`, detail: "This file was moved or changed since: choose it again." });
    }
  }
  const { logs, complaints } = await logsOfForm(fields, files);
  return { logs, complaints: [...lost, ...complaints] };
}

export function fileInput(slot: Slot): HTMLInputElement | null {
  return document.getElementById(idOf(`${slot}.file`)) as HTMLInputElement | null;
}

/** Puts a file where somebody would have chosen it, so that the form is whole even without this script. */
export function putFile(slot: Slot, file: File): void {
  const input = fileInput(slot);
  if (!input) return;
  const chosen = new DataTransfer();
  chosen.items.add(file);
  input.files = chosen.files;
  input.dispatchEvent(new Event("input", { bubbles: true }));
}

/** The logs by name, size and age, as they were chosen last. */
const chosen = new Map<Slot, string>();

/**
 * Takes away what was marked and corrected in the last log of a slot once another one is chosen, and says so.
 * @returns whether there was another one
 */
export function forgetLastLog(form: HTMLFormElement, slot: Slot): boolean {
  const input = fileInput(slot);
  const file = input?.files?.[0];
  if (!file) return false;
  const before = chosen.get(slot);
  const now = `${file.name} ${file.size} ${file.lastModified}`;
  chosen.set(slot, now);
  const isAnother = before !== undefined && before !== now;
  const id = `${slot}-forgotten`;
  document.getElementById(id)?.remove();
  if (!isAnother) return false;
  for (const control of form.querySelectorAll<HTMLInputElement>(`[name^="${slot}."]`)) {
    if (!isOfLog(slot, control.name)) continue;
    if (control.name.includes(".mark.")) control.value = "";
    else control.closest("details")?.remove(); // shown anew with the preview
  }
  input.closest(".field")?.append(make("p", { id, class: "hint", role: "status" }, FORGOTTEN));
  return true;
}

/** A log may be dropped anywhere, or pasted where nothing else takes it; on a slot's own field it goes there. */
export function takeDropsAndPastes(): void {
  const invite = (isOver: boolean) => document.documentElement.classList.toggle("dropping", isOver);
  document.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    invite(true);
  });
  document.addEventListener("dragleave", ({ relatedTarget }) => relatedTarget === null && invite(false));
  document.addEventListener("drop", (event) => {
    invite(false);
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    putFile(slotAt(event.target), file);
  });
  document.addEventListener("paste", (event) => {
    if ((event.target as Element).closest?.("input, textarea, select")) return;
    const file = event.clipboardData?.files[0];
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (file) putFile("full_log", file);
    else if (text.includes("\n")) putFile("full_log", new File([text], "pasted.csv"));
  });
}

function slotAt(target: EventTarget | null): Slot {
  const named = target instanceof Element ? target.closest<HTMLElement>("[data-slot]")?.dataset.slot : undefined;
  return SLOTS.find((slot) => slot === named) ?? "full_log";
}

const read = new WeakMap<File, Uint8Array>();

async function bytesOf(file: File): Promise<Uint8Array> {
  const known = read.get(file);
  if (known) return known;
  const bytes = new Uint8Array(await file.arrayBuffer());
  read.set(file, bytes);
  return bytes;
}
