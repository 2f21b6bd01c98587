import { seriousWords } from "../pages/serious.tsx";
import type { PinnedResult } from "../wire/pinned.ts";

/** What a reader must not miss, whoever posts the picture. */
export function warnings({ pinned, withdrawn }: PinnedResult): string[] {
  const serious =
    pinned.kind === "trial" ? pinned.findings.filter(({ severity }) => severity === "serious").length : pinned.serious;
  return [
    ...(pinned.invented ? ["Invented for demonstration"] : []),
    ...(withdrawn ? [`Withdrawn on ${withdrawn.at.slice(0, 10)}`] : []),
    ...(serious > 0
      ? [
          pinned.kind === "trial"
            ? "With a serious finding"
            : `Note: ${seriousWords({ trials: pinned.trials, serious })}`,
        ]
      : []),
  ];
}
