import { SLOTS, type Slot } from "../pages/submit/form-fields.ts";
import { fileInput } from "./logs-in-form.ts";

/** What this browser keeps of a test until it is published: never the key, which it keeps only if asked to. */
export interface Draft {
  readonly fields: ReadonlyMap<string, string>;
  /** When it was saved, RFC 3339. */
  readonly at: string;
  /** Sent with the last attempt to publish, for as long as the content stays the same. */
  readonly attempt: { readonly key: string; readonly content: string } | null;
}

const NAME = "motefall.draft";
const UNSAVED = /^(key|do|consent)$|\.(text|kept|kept_name)$/;

export function readDraft(): Draft | null {
  try {
    const { fields, at, attempt } = JSON.parse(localStorage.getItem(NAME) ?? "null");
    return { fields: new Map(fields), at, attempt };
  } catch {
    return null; // none, or none that this version understands
  }
}

/** @returns whether the browser let it be kept */
export function saveDraft(fields: ReadonlyMap<string, string>, attempt: Draft["attempt"]): boolean {
  const kept = [...fields].filter(([name]) => !UNSAVED.test(name));
  try {
    localStorage.setItem(NAME, JSON.stringify({ fields: kept, at: new Date().toISOString(), attempt }));
    return true;
  } catch {
    return false;
  }
}

/** Keeps the logs that were chosen or pasted; those taken away are forgotten. */
export async function saveLogs(fields: ReadonlyMap<string, string>): Promise<void> {
  await inStore("readwrite", (store) => {
    for (const slot of SLOTS) {
      const text = fields.get(`${slot}.text`) ?? "";
      const log = fileInput(slot)?.files?.[0] ?? (text.trim() === "" ? null : new File([text], "pasted.csv"));
      if (log) store.put(log, slot);
      else store.delete(slot);
    }
  });
}

export async function readLogs(): Promise<ReadonlyMap<Slot, File>> {
  const found = new Map<Slot, File>();
  await inStore("readonly", (store) => {
    for (const slot of SLOTS) {
      const asked = store.get(slot);
      asked.onsuccess = () => {
        if (asked.result instanceof File) found.set(slot, asked.result);
      };
    }
  });
  return found;
}

export async function discardDraft(): Promise<void> {
  localStorage.removeItem(NAME);
  await inStore("readwrite", (store) => {
    store.clear();
  });
}

/** Local storage is too small for logs. Where the other one is missing, as in some private windows, nothing is kept of them. */
function inStore(mode: IDBTransactionMode, use: (store: IDBObjectStore) => void): Promise<void> {
  return new Promise((resolve) => {
    const opening = indexedDB.open("motefall", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("logs");
    opening.onerror = () => resolve();
    opening.onsuccess = () => {
      const transaction = opening.result.transaction("logs", mode);
      transaction.oncomplete = transaction.onabort = () => {
        opening.result.close();
        resolve();
      };
      use(transaction.objectStore("logs"));
    };
  });
}
