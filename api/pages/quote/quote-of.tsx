import { referToResult } from "../../citation/cite-pin.ts";
import type { Dependencies } from "../../environment.ts";
import { type Pin, pinPath } from "../../pins/pin.ts";
import { readPin } from "../../pins/read-pin.ts";
import { DatasetData } from "./dataset-data.tsx";
import { Quote } from "./quote.tsx";

/** The quotation of a pinned result with its data for machines; null where there is no figure to quote. */
export async function quoteOf({ db, publicUrl }: Dependencies, pin: Pin | null) {
  if (pin === null) return null;
  const result = await readPin(db, publicUrl, pin);
  const reference = await referToResult(db, result);
  return (
    <>
      <DatasetData result={result} reference={reference} />
      <Quote reference={reference} path={pinPath(pin)} />
    </>
  );
}
