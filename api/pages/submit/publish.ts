import { holderOf } from "../../caller.ts";
import type { Dependencies } from "../../environment.ts";
import { fromZod } from "../../failure.ts";
import { invalid, RequestError } from "../../problem.ts";
import { storeTrial } from "../../store-trial.ts";
import { TrialIn } from "../../wire/trial.ts";
import type { FormTrial } from "./trial-from-form.ts";

/**
 * Stores a form's trial under its key and gives its id; the same content again leads to the first one's.
 * @throws RequestError and StoreError as `POST /v1/trials` does; what concerns the key points at `#/key`
 */
export async function publish(deps: Dependencies, { trial, files }: FormTrial, key: string): Promise<string> {
  const parsed = TrialIn.safeParse(trial);
  if (!parsed.success) throw fromZod(parsed.error);
  const submitter = await submitterOf(deps, key);
  const submission = { sent: trial, trial: parsed.data, files, explain: (error: RequestError) => error };
  const { id } = await storeTrial(deps, submitter, submission, null);
  return id;
}

async function submitterOf(deps: Dependencies, key: string): Promise<string> {
  try {
    const caller = await holderOf(deps, key.replaceAll(/\s+/g, ""));
    if (caller.kind === "submitter") return caller.submitter;
  } catch (error) {
    if (error instanceof RequestError) throw invalid(["key"], error.message);
    throw error;
  }
  throw invalid(["key"], "The operator's key stores nothing: trials belong to a submitter.");
}
