import { idOf } from "../pages/submit/form-fields.ts";
import type { Complaint } from "./complaints-in-page.ts";
import { make } from "./form-state.ts";
import { keep, recall } from "./kept-here.ts";

const NAME = "motefall.key";
/** That a new key was made in this tab and not kept: never the key itself. */
const LOOSE = "motefall.loose-key";

/** The key's field with a button that copies it and a box by which this browser keeps it. */
export class KeyInPage {
  readonly #input = document.getElementById(idOf("key")) as HTMLInputElement;
  readonly #box = make("input", { type: "checkbox", id: "keep-key" }) as HTMLInputElement;
  readonly #copy = make("button", { type: "button" }, "Copy the key");
  readonly #note = make("p", { role: "status", class: "wide-field" });
  /** A new key that stands nowhere but in this page. */
  #isLoose = false;
  #isMaking = false;

  constructor() {
    const kept = recall(NAME);
    if (kept && !this.#input.value) this.#input.value = kept;
    this.#box.checked = kept !== null;
    const words = "Keep the key in this browser for my next test: whoever uses it then can publish and withdraw as me.";
    const place = this.#input.closest(".field")!;
    place.after(make("label", { class: "choice wide-field" }, this.#box, make("span", {}, words)), this.#note);
    place.append(this.#copy);
    this.#copy.addEventListener("click", () => this.#copyKey());
    this.#box.addEventListener("change", () => this.#keep());
    this.#input.addEventListener("input", () => {
      this.#loosen(false);
      this.#keep();
    });
    if (kept === null && recall(LOOSE, "sessionStorage") !== null) {
      this.#note.textContent = "Your new key was not kept: enter it if you wrote it down.";
    }
  }

  /** Makes a key with the name in the form. @returns what is wrong, null where all is well */
  async make(handle: string): Promise<Complaint | null> {
    if (this.#isMaking) return null; // pressed twice: a second key would take the place of the first
    this.#isMaking = true;
    try {
      return await this.#make(handle);
    } finally {
      this.#isMaking = false;
    }
  }

  async #make(handle: string): Promise<Complaint | null> {
    const body = handle === "" ? {} : { handle };
    let answer: Response;
    try {
      const headers = { "Content-Type": "application/json" };
      answer = await fetch("/v1/keys", { method: "POST", headers, body: JSON.stringify(body) });
    } catch {
      return { field: "key", detail: "No key was made: the server cannot be reached." };
    }
    const made = (await answer.json().catch(() => ({}))) as { key?: string; keep?: string; detail?: string };
    if (answer.status === 422) return { field: "handle", detail: "At most 60 plain characters." };
    if (!made.key) return { field: "key", detail: made.detail ?? "No key was made; try again." };
    this.#input.value = made.key;
    this.#loosen(true);
    this.#keep();
    this.#note.className = "new-key wide-field";
    // Whole, for whoever writes it down: the field of a phone cuts it off.
    this.#note.replaceChildren("Your new key: ", make("code", {}, made.key), made.keep ?? "");
    this.#copy.focus();
    return null;
  }

  /** Once: that a new key would be lost. Whoever goes on all the same has been told. */
  warning(): Complaint | null {
    if (!this.#isLoose || this.#box.checked) return null;
    this.#loosen(false);
    const detail = "Copy your new key first, or tick that this browser keeps it. Publish again to go on without.";
    return { field: "key", detail };
  }

  async #copyKey(): Promise<void> {
    try {
      await navigator.clipboard.writeText(this.#input.value);
      this.#loosen(false);
      this.#note.textContent = "Copied. Put it where you keep passwords.";
    } catch {
      this.#input.select();
      this.#note.textContent = "This browser does not let a page copy: the key is selected, copy it yourself.";
    }
  }

  #loosen(isLoose: boolean): void {
    this.#isLoose = isLoose;
    keep(LOOSE, isLoose ? "yes" : null, "sessionStorage");
  }

  #keep(): void {
    if (keep(NAME, (this.#box.checked && this.#input.value) || null)) return;
    this.#box.checked = false;
    this.#note.textContent = "This browser keeps nothing: keep the key yourself.";
  }
}
