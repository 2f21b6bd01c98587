import type { Since } from "../../pins/since.ts";
import type { PinnedResult } from "../../wire/pinned.ts";
import { inUnit, Quantity } from "../quantity.tsx";
import type { FlowUnit } from "../reader.ts";

interface Props {
  readonly result: PinnedResult;
  readonly since: Since;
  readonly flow: FlowUnit;
}

/** What stands in its place now, and why. */
export function SinceNote({
  result: { pinned, withdrawn },
  since: { now, isCurrent, why, methodChanges },
  flow,
}: Props) {
  if (withdrawn) return null;
  const record =
    pinned.kind === "trial" ? (
      <a href={`/trials/${pinned.trial}`}>all of the test</a>
    ) : (
      <a href={`/entries/${pinned.entry}`}>the figure with all that is known now</a>
    );
  if (isCurrent && why.length === 0) return <p class="quiet">It is what holds today; see {record}.</p>;
  if (now === null) {
    return (
      <p role="note">
        Since then {why.map(shown)}; see {record}.
      </p>
    );
  }
  return (
    <>
      <p role="note">
        Now:{" "}
        <a href={now.pinned.path}>
          <Quantity of={inUnit(now.pinned.cadr, flow)} />
        </a>{" "}
        ({why.map(shown)}). To quote what holds today, take that one; see also {record}.
      </p>
      {methodChanges.map(({ version, changed }) => (
        <p class="quiet">
          What method {version} changed: {changed.join(" ")} See <a href="/method">the method</a>.
        </p>
      ))}
    </>
  );
}

/** A phrase after others: some of them end in what people wrote. */
function shown(phrase: string, i: number) {
  return (
    <>
      {i > 0 && "; "}
      <bdi>{phrase}</bdi>
    </>
  );
}
