import type { Database } from "../../../db/database.ts";
import { StoreError } from "../../../db/store-error.ts";
import type { App } from "../../endpoint.ts";
import { RequestError } from "../../problem.ts";
import { readComparison } from "../../read-comparison.ts";
import type { ComparisonOut } from "../../wire/comparison.ts";
import { htmlAnswer } from "../page.tsx";
import { type Reader, readerOf } from "../reader.ts";
import { listChoices } from "./choices.ts";
import { ChoosePage } from "./choose-page.tsx";
import { type Chosen, readChosen } from "./chosen.ts";
import { ComparePage } from "./compare-page.tsx";

/** `GET /compare`: two to six results side by side, and every two of them against each other. */
export function addComparePage(app: App): void {
  app.get("/compare", async (c) => {
    const { db, publicUrl } = c.var.deps;
    const reader = readerOf(c);
    const chosen = readChosen(c);
    const answer = chosen.isAsked ? await compareOrComplain(db, publicUrl, chosen, reader) : null;
    if (typeof answer === "object" && answer) {
      return htmlAnswer(c, <ComparePage reader={reader} comparison={answer} />);
    }
    const choices = await listChoices(db, chosen);
    const page = <ChoosePage reader={reader} chosen={chosen} choices={choices} complaint={answer} />;
    return htmlAnswer(c, page, answer === null ? 200 : 422);
  });
}

/** The comparison, or in words why there is none: the reader chooses again on the same page. */
async function compareOrComplain(
  db: Database,
  publicUrl: string,
  { ids, basis }: Chosen,
  reader: Reader,
): Promise<ComparisonOut | string> {
  if (ids.length < 2) return ids.length === 0 ? "None is chosen: tick two to six." : "One alone: tick another.";
  if (ids.length > 6) return "More than six are chosen.";
  try {
    return await readComparison(db, publicUrl, { entries: ids.join(","), basis, unit: reader.flow });
  } catch (error) {
    if (error instanceof RequestError && error.code === "invalid") return error.message;
    if (error instanceof StoreError && (error.code === "not-found" || error.code === "mistyped-id")) {
      return error.message;
    }
    throw error;
  }
}
