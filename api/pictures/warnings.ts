import { seriousWords } from "../pages/serious.tsx";
import { correctedInterest } from "../pins/corrected-words.ts";
import type { PinnedResult } from "../wire/pinned.ts";

/** What a reader must not miss, whoever posts the picture. */
export function warnings(result: PinnedResult): string[] {
  const { pinned, withdrawn } = result;
  const paid = correctedInterest(result);
  const serious =
    pinned.kind === "trial" ? pinned.findings.filter(({ severity }) => severity === "serious").length : pinned.serious;
  return [
    ...(pinned.invented ? ["Invented for demonstration"] : []),
    ...(withdrawn ? [`Withdrawn on ${withdrawn.at.slice(0, 10)}`] : []),
    ...(paid ? ["Who paid was corrected"] : []),
    ...(serious > 0
      ? [
          pinned.kind === "trial"
            ? "With a serious finding"
            : `Note: ${seriousWords({ trials: pinned.trials, serious })}`,
        ]
      : []),
  ];
}
