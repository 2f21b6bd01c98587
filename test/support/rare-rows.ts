import { toCsv } from "../../analysis/simulate/to-csv.ts";
import { newKey } from "./client.ts";
import { type InProcess, settings } from "./in-process.ts";
import { bearer, json, sampleLog, sampleTrial } from "./sample-trial.ts";

/** Rows of tables that a registry by chance leaves empty: an uploaded file, an answer, a revoked key, a picture. */
export async function addRareRows(target: InProcess): Promise<void> {
  const key = await newKey(target, "Neap");
  const form = new FormData();
  const trial = { ...sampleTrial(9901), runs: [{ role: "full_log", file: "log" }] };
  form.set("trial", JSON.stringify(trial));
  form.set("log", new Blob([toCsv(sampleLog(9901).series)]), "log.csv");
  const stored = await target.request("/v1/trials", { method: "POST", body: form, ...headersOf(key) });
  if (stored.status !== 201) throw new Error(await stored.text());
  const { id } = (await stored.json()) as { id: string };
  const asked = await target.request(`/v1/trials/${id}/questions`, json({ question: "Which counter?" }));
  const { questions } = (await asked.json()) as { questions: { id: string }[] };
  await target.request(`/v1/questions/${questions[0]!.id}/answers`, json({ answer: "Mine." }, bearer(key)));
  await target.request(`/pinned/${id}/1/1.0.0/0.1-1.0/card.png`);
  const other = await newKey(target);
  const prefix = other.split("_").slice(0, 2).join("_");
  await target.request(`/v1/keys/${prefix}`, { method: "DELETE", ...headersOf(settings.operatorKey) });
}

const headersOf = (key: string) => ({ headers: bearer(key) });
