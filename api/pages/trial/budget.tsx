import type { BandResultOut } from "../../wire/analysis.ts";
import { BudgetBars } from "../charts/budget-bars.tsx";
import type { Reader } from "../reader.ts";
import { sourceWords } from "./source-words.ts";

/** What the uncertainty of a result is made of. */
export function Budget({ result: { budget, natural, cadr }, reader }: { result: BandResultOut; reader: Reader }) {
  return (
    <>
      <BudgetBars
        caption="What the uncertainty is made of"
        budget={budget}
        wordsOf={(source) => sourceWords(source, natural.source)}
        flow={reader.flow}
        whole={{ u: cadr.u, expanded: (cadr.high - cadr.low) / 2 }}
      />
      {budget.some(({ source }) => source === "shared_background") && (
        <p class="quiet unprinted">
          Both decays fall towards the same background, so an error of it moves both rates alike and partly cancels in
          their difference: a share below zero lessens the whole.
        </p>
      )}
    </>
  );
}
