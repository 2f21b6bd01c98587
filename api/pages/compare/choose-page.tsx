import { Page } from "../page.tsx";
import type { Reader } from "../reader.ts";
import type { Choice } from "./choices.ts";
import { ChooseForm } from "./choose-form.tsx";
import type { Chosen } from "./chosen.ts";

interface Props {
  readonly reader: Reader;
  readonly chosen: Chosen;
  readonly choices: readonly Choice[];
  /** Why those chosen cannot be compared; null where nothing was asked yet. */
  readonly complaint: string | null;
}

/** How to choose what is compared. */
export function ChoosePage({ reader, chosen, choices, complaint }: Props) {
  return (
    <Page reader={reader} title="Compare · Motefall">
      <h1>Compare cleaners</h1>
      <p>
        Choose two to six results: each against each, you see by how much they differ, with the interval of that
        difference, how sure it is which of them cleans more air, and in what their parts and their tests are not alike.
      </p>
      <p>
        Two intervals that overlap do not tell by themselves: tested in the same room, two cleaners share the error of
        its volume, and their difference is better known than the two intervals together suggest.
      </p>
      {complaint && (
        <div role="alert">
          <p class="error">
            <a href="#f-entries">These cannot be compared</a>: <bdi>{complaint}</bdi>
          </p>
        </div>
      )}
      <ChooseForm chosen={chosen} choices={choices} />
    </Page>
  );
}
