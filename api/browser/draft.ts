import { SLOTS, type Slot } from "../pages/submit/form-fields.ts";
import { keep, recall } from "./kept-here.ts";
import { fileInput } from "./logs-in-form.ts";

/** What this browser keeps of a test until it is published: never the key, which it keeps only if asked to. */
export interface Draft {
  readonly fields: ReadonlyMap<string, string>;
  /** When it was saved, RFC 3339. */
  readonly at: string;
  /** Idempotency-Key of an attempt to publish whose answer never came. */
  readonly attempt: string | null;
  /** Name and size of the log in each slot: another tab may have put its own in their place since. */
  readonly logs: ReadonlyMap<string, string>;
}

const NAME = "motefall.draft";
const UNSAVED = /^(key|do|consent)$|\.(text|kept|kept_name)$/;

export function readDraft(): Draft | null {
  try {
    const { fields, at, attempt, logs } = JSON.parse(recall(NAME) ?? "null");
    const draft = { fields: pairs(fields), at: new Date(at).toISOString(), logs: pairs(logs ?? []) };
    return { ...draft, attempt: typeof attempt === "string" ? attempt : null };
  } catch {
    return null; // none, or none that this version understands
  }
}

function pairs(kept: readonly unknown[]): Map<string, string> {
  const isPair = (pair: unknown): pair is [string, string] =>
    Array.isArray(pair) && pair.length === 2 && pair.every((text) => typeof text === "string");
  return new Map(kept.filter(isPair));
}

/** @returns whether the browser let it be kept */
export function saveDraft(fields: ReadonlyMap<string, string>, attempt: string | null): boolean {
  const kept = [...fields].filter(([name]) => !UNSAVED.test(name));
  const logs = SLOTS.flatMap((slot) => {
    const log = logIn(slot, fields);
    return log ? [[slot, written(log)]] : [];
  });
  return keep(NAME, JSON.stringify({ fields: kept, at: new Date().toISOString(), attempt, logs }));
}

function logIn(slot: Slot, fields: ReadonlyMap<string, string>): File | null {
  const text = fields.get(`${slot}.text`) ?? "";
  return fileInput(slot)?.files?.[0] ?? (text.trim() === "" ? null : new File([text], "pasted.csv"));
}

function written({ name, size }: File): string {
  return `${name} ${size}`;
}

/** Keeps the logs that were chosen or pasted; those taken away are forgotten. @returns whether there was room for them */
export function saveLogs(fields: ReadonlyMap<string, string>): Promise<boolean> {
  return inStore("readwrite", (store) => {
    for (const slot of SLOTS) {
      const log = logIn(slot, fields);
      if (log) store.put(log, slot);
      else store.delete(slot);
    }
  });
}

/** The logs of a draft, as far as they are kept. */
export async function readLogs({ logs }: Pick<Draft, "logs">): Promise<ReadonlyMap<Slot, File>> {
  const found = new Map<Slot, File>();
  await inStore("readonly", (store) => {
    for (const slot of SLOTS) {
      const asked = store.get(slot);
      asked.onsuccess = () => {
        const log: unknown = asked.result;
        if (log instanceof File && logs.get(slot) === written(log)) found.set(slot, log);
      };
    }
  });
  return found;
}

export async function discardDraft(): Promise<void> {
  keep(NAME, null);
  await inStore("readwrite", (store) => {
    store.clear();
  });
}

/**
 * Local storage is too small for logs. Where the other one is missing, forbidden or full nothing is kept of them.
 * @returns whether it was done
 */
function inStore(mode: IDBTransactionMode, use: (store: IDBObjectStore) => void): Promise<boolean> {
  return new Promise<boolean>((resolve) => {
    const opening = indexedDB.open("motefall", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("logs");
    opening.onerror = opening.onblocked = () => resolve(false);
    opening.onsuccess = () => {
      const end = (isDone: boolean) => {
        opening.result.close();
        resolve(isDone);
      };
      try {
        const transaction = opening.result.transaction("logs", mode);
        transaction.oncomplete = () => end(true);
        transaction.onabort = () => end(false);
        use(transaction.objectStore("logs"));
      } catch {
        end(false); // of another shape, or a file that cannot be kept
      }
    };
  }).catch(() => false);
}
