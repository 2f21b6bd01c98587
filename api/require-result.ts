import { RequestError } from "./problem.ts";
import type { AnalysisOut } from "./wire/analysis.ts";

/** @throws RequestError "no-result" with the refusals, what was dropped and any natural decay that was found */
export function requireResult(analysis: AnalysisOut): void {
  if (analysis.results.length > 0) return;
  const { refusals, naturals, dropped, phases, read } = analysis;
  // A band that the counter does not cover is no news where there is another reason.
  const telling = refusals.filter(({ code }) => code !== "band-not-covered");
  const reasons = [...new Set((telling.length > 0 ? telling : refusals).map(({ message }) => message))]
    .slice(0, 3)
    .join("; ");
  throw new RequestError("no-result", reasons || "No band holds a decay.", [], {
    refusals,
    naturals,
    dropped,
    phases,
    read,
  });
}
