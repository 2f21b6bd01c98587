import { expect } from "vitest";
import { toCsv } from "../../../analysis/simulate/to-csv.ts";
import { DESCRIBED, type FieldName } from "../../../api/pages/submit/form-fields.ts";
import type { InProcess } from "../../support/in-process.ts";
import { sampleLog } from "../../support/sample-trial.ts";
import { FormOfPage } from "./form-of-page.ts";

/** Fills the form of the page where a test is added, as a browser without scripts does. */
export class FormClient {
  readonly #target: Pick<InProcess, "request">;

  constructor(target: Pick<InProcess, "request">) {
    this.#target = target;
  }

  async empty(path = "/submit"): Promise<FormOfPage> {
    return new FormOfPage(await (await this.#target.request(path)).text());
  }

  post(body: FormData): Promise<Response> {
    return this.#target.request("/submit", { method: "POST", body });
  }

  /** The page that is shown again, with the status it should have. */
  async shown(body: FormData, status = 200): Promise<FormOfPage> {
    const answer = await this.post(body);
    const form = new FormOfPage(await answer.text());
    expect({ status: answer.status, ...form.summary }).toMatchObject({ status });
    return form;
  }
}

/** A log of both decays, whose channel fills the band 0.1–1.0 µm by half. */
export const CSV = toCsv(sampleLog(11).series).replace("n1", "0.3-1.0 um");
export const csv = (text = CSV) => new File([text], "log.csv", { type: "text/csv" });

export const DESCRIPTION = {
  configuration: DESCRIBED,
  "described.title": "Tern box",
  "described.kind": "user_built",
  "described.parts.0.part": "fan",
  "described.parts.0.count": "1",
  "described.parts.0.description": "axial fan, 200 mm",
  "described.parts.1.part": "filter",
  "described.parts.1.count": "2",
  "described.parts.1.description": "pleated panel",
  "described.parts.1.grade_system": "MERV",
  "described.parts.1.grade": "13",
  "described.setting": "low",
} satisfies Partial<Record<FieldName, string>>;

export const CONDITIONS = {
  interest: "independent",
  performed_at: "2026-10-03T18:20",
  performed_offset: "+02:00",
  consent: "yes",
} satisfies Partial<Record<FieldName, string>>;
