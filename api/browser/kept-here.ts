type Where = "localStorage" | "sessionStorage";

/** What this browser keeps under a name; null too where it keeps nothing, as in some private windows. */
export function recall(name: string, where: Where = "localStorage"): string | null {
  try {
    return window[where].getItem(name);
  } catch {
    return null;
  }
}

/** Keeps a text, or forgets it (null). @returns whether the browser let it be done: storage may be forbidden, or full */
export function keep(name: string, text: string | null, where: Where = "localStorage"): boolean {
  try {
    if (text === null) window[where].removeItem(name);
    else window[where].setItem(name, text);
    return true;
  } catch {
    return false;
  }
}
