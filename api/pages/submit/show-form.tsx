import { findSpread } from "../../../db/spreads.ts";
import type { Ctx } from "../../environment.ts";
import { htmlAnswer } from "../page.tsx";
import { readerOf } from "../reader.ts";
import { type ConfigurationChoice, choicesFor } from "./choices.ts";
import type { Slot } from "./form-fields.ts";
import type { FieldComplaint } from "./form-reader.ts";
import { keepLogs } from "./kept-log.ts";
import type { Looked } from "./preview-of-form.ts";
import { submitScriptAddress } from "./script-route.ts";
import { SubmitPage } from "./submit-page.tsx";
import type { FormLog } from "./trial-from-form.ts";

interface Told {
  readonly logs?: ReadonlyMap<Slot, FormLog>;
  readonly looked?: Looked;
  /** Words to search configurations by. */
  readonly words?: string;
  readonly similar?: readonly ConfigurationChoice[] | null;
  readonly isNewKey?: boolean;
  readonly complaints?: readonly FieldComplaint[];
  readonly problems?: readonly string[];
  readonly status?: number;
}

/** The page with the form as it was filled. */
export async function showForm(c: Ctx, fields: ReadonlyMap<string, string>, told: Told): Promise<Response> {
  const { deps } = c.var;
  const { looked, complaints = [], problems = [] } = told;
  const [kept, found, spread, script] = await Promise.all([
    keepLogs(told.logs ?? new Map()),
    choicesFor(deps, told.words ?? (fields.get("find")?.trim() || undefined), fields.get("configuration") ?? ""),
    findSpread(deps.db.read),
    submitScriptAddress(deps.submitScript),
  ]);
  const hasNoResult = looked?.preview.analysis?.results.length === 0;
  const page = await htmlAnswer(
    c,
    <SubmitPage
      reader={readerOf(c)}
      script={script}
      filled={{ fields, complaints }}
      problems={problems}
      preview={looked?.preview ?? null}
      kept={kept}
      found={found}
      similar={told.similar ?? null}
      isNewKey={told.isNewKey ?? false}
      spread={spread}
    />,
    told.status ?? (complaints.length > 0 || hasNoResult ? 422 : 200),
  );
  // Without a key in it a page may be gone back to: one that is not stored would end in the browser's own error page.
  page.headers.set("Cache-Control", fields.get("key") ? "no-store" : "private, no-cache");
  return page;
}
