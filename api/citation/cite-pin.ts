import { StoreError } from "../../db/store-error.ts";
import { findHandle } from "../../db/submitters.ts";
import type { Dependencies } from "../environment.ts";
import type { Pin } from "../pins/pin.ts";
import { readPin } from "../pins/read-pin.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import type { Reference } from "./reference.ts";
import { referenceOf } from "./reference-of.ts";

/** A pinned result as a reference. @throws StoreError "not-found" where there is no figure to cite */
export async function referTo({ db, publicUrl }: Dependencies, pin: Pin | null): Promise<Reference> {
  if (pin === null)
    throw new StoreError("not-found", "There is no figure to cite: no rate could be told, or no test counts.");
  return referToResult(db, await readPin(db, publicUrl, pin));
}

/** The same of a result that was read already. */
export async function referToResult(db: Dependencies["db"], result: PinnedResult): Promise<Reference> {
  const { pinned } = result;
  return referenceOf(result, pinned.kind === "trial" ? await findHandle(db, pinned.submitter) : null);
}
