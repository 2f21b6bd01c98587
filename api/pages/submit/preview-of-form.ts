import { analyseTrial } from "../../../analysis/analyse-trial.ts";
import { findSpread } from "../../../db/spreads.ts";
import type { Dependencies } from "../../environment.ts";
import { fromZod } from "../../failure.ts";
import { findLinkedRun } from "../../find-linked-run.ts";
import { RequestError } from "../../problem.ts";
import { prepareTrial } from "../../trial-input.ts";
import type { AnalysisOut } from "../../wire/analysis.ts";
import { AnalysisIn } from "../../wire/trial.ts";
import { withExpectation, writeAnalysis } from "../../write-analysis.ts";
import type { Slot } from "./form-fields.ts";
import type { PreviewProps } from "./preview.tsx";
import { columnsShown, drawnRuns, hindrance, isSizeless, lookedAt } from "./preview-runs.ts";
import type { FormLog, FormTrial } from "./trial-from-form.ts";

/** What a form's logs say by the code behind `POST /v1/analyses`, or why they say nothing. */
export interface Looked {
  readonly preview: Omit<PreviewProps, "complaints" | "flow">;
  /** When the first log began, where it is stamped with a zone. */
  readonly startMs: number | null;
  readonly refused: RequestError | null;
}

/** @throws nothing that a form can cause: a refusal comes back */
export async function previewOfForm(
  { db }: Dependencies,
  made: FormTrial,
  fields: ReadonlyMap<string, string>,
  logs: ReadonlyMap<Slot, FormLog>,
): Promise<Looked> {
  const columns = columnsShown(fields, logs);
  const isSized = !isSizeless(made.complaints);
  const nothing = { preview: { analysis: null, isSized, runs: [], columns }, startMs: null };
  if (hindrance(made.complaints)) return { ...nothing, refused: null };
  const parsed = AnalysisIn.safeParse(lookedAt(made));
  if (!parsed.success) return { ...nothing, refused: fromZod(parsed.error) };
  try {
    const prepared = await prepareTrial(parsed.data, made.files, (reference, path) =>
      findLinkedRun(db, reference, path),
    );
    const analysis: AnalysisOut = writeAnalysis(analyseTrial(prepared.input), prepared.runs, prepared.volume);
    const startMs = prepared.runs.find(({ source }) => "read" in source)?.input.startMs ?? null;
    return {
      preview: {
        analysis: withExpectation(analysis, await findSpread(db.read)),
        isSized,
        runs: drawnRuns(prepared),
        columns,
      },
      startMs,
      refused: null,
    };
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
    return { ...nothing, refused: error };
  }
}
