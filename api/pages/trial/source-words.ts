import type { FindingCode } from "../../../analysis/analysis.ts";
import { FINDING_WORDS } from "./finding-words.ts";

/** What an uncertainty budget names besides findings. */
const OWN = {
  volume: "Volume of the room",
  total_fit: "Fit of the total decay",
  natural_fit: "Fit of the natural decay",
  counters: "Spread between the counters",
  shared_background: "Background that both decays share",
};

/** A source of uncertainty in words. */
export function sourceWords(source: string, natural: "measured" | "other_day" | "assumed"): string {
  if (source === "natural_fit" && natural === "assumed") return "Natural loss, assumed";
  if (source in OWN) return OWN[source as keyof typeof OWN];
  return FINDING_WORDS[source as FindingCode]?.name ?? "Another source";
}
