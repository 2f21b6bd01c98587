import { DOUBTS, type DoubtCode } from "../../../doubt/rules.ts";
import { Part } from "../part.tsx";

/** The rules that have a test wait for a person: what each tries, and where it is from. */
export function DoubtsPart() {
  return (
    <Part id="doubts" title="Tests that wait for a person">
      <p>
        A test that one of these rules doubts is stored like any other, and its page says so first. It counts in no
        figure until the operator lists it, with a reason that stands in its history. No rule withdraws anything.
      </p>
      <dl class="entries">
        {(Object.keys(DOUBTS) as DoubtCode[]).map((code) => (
          <>
            <dt id={`doubt-${code}`}>
              <code>{code}</code>
            </dt>
            <dd>
              {DOUBTS[code].applies} <span class="next">Source: {DOUBTS[code].source}.</span>
            </dd>
          </>
        ))}
      </dl>
    </Part>
  );
}
