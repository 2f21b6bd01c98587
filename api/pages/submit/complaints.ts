import type { StoreError } from "../../../db/store-error.ts";
import { fromZod } from "../../failure.ts";
import { ERRORS, RequestError } from "../../problem.ts";
import { TrialIn } from "../../wire/trial.ts";
import { complaintWords } from "./complaint-words.ts";
import { fieldOfPointer } from "./field-of-pointer.ts";
import type { FieldComplaint } from "./form-reader.ts";
import type { FormTrial } from "./trial-from-form.ts";

/** All that is wrong with a form: one complaint a field, the first that was found, and what is beside no field. */
export class Complaints {
  readonly #fields: ReadonlyMap<string, string>;
  readonly #made: FormTrial;
  readonly #complaints = new Map<string, FieldComplaint>();
  readonly #problems: string[] = [];
  #status = 422;

  constructor(fields: ReadonlyMap<string, string>, made: FormTrial, first: readonly FieldComplaint[]) {
    this.#fields = fields;
    this.#made = made;
    this.add(...first, ...made.complaints);
  }

  add(...complaints: readonly FieldComplaint[]): void {
    for (const complaint of complaints) {
      if (!this.#complaints.has(complaint.field)) this.#complaints.set(complaint.field, complaint);
    }
  }

  /** What `POST /v1/trials` would say of the trial's form. */
  checkTrial(): void {
    const parsed = TrialIn.safeParse(this.#made.trial);
    if (!parsed.success) this.addRefusal(fromZod(parsed.error));
  }

  addRefusal(error: RequestError | StoreError): void {
    const places = placesOf(error);
    if (places.length === 0) {
      this.#problems.push(complaintWords(error.message));
      this.#status = ERRORS[error.code].status;
    }
    for (const { pointer, detail } of places) {
      const field = pointer === "#/key" ? "key" : fieldOfPointer(pointer, this.#fields, this.#made.trial);
      if (field) this.add({ field, detail: complaintWords(detail) });
      else this.#problems.push(detail);
    }
  }

  get none(): boolean {
    return this.#complaints.size === 0 && this.#problems.length === 0;
  }

  told() {
    return {
      complaints: [...this.#complaints.values()],
      problems: this.#problems,
      status: this.none ? 200 : this.#status,
    };
  }
}

/** What a refusal says about places of the trial; empty where it is about the whole. */
function placesOf(error: RequestError | StoreError): readonly { pointer: string; detail: string }[] {
  if (error instanceof RequestError) return error.errors;
  const { errors } = error.details;
  if (Array.isArray(errors)) return errors as { pointer: string; detail: string }[];
  const isChoice = error.code === "not-found" || error.code === "mistyped-id" || error.code === "already-merged";
  return isChoice ? [{ pointer: "#/configuration", detail: error.message }] : [];
}
