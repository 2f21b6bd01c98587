import { FINDING_CODES } from "../../../../analysis/analysis.ts";
import { REFUSAL_CODES, type RefusalCode } from "../../../../analysis/analysis-error.ts";
import { FINDING_WORDS, valueWords } from "../../trial/finding-words.ts";
import { Folded, Part } from "../part.tsx";
import { FINDING_MEANINGS } from "./finding-meanings.ts";
import { REFUSAL_REMEDIES } from "./refusal-remedies.ts";

/** Every finding: what raises it, what it adds, what to do next time. */
export function FindingsPart() {
  return (
    <Part id="findings" title="Findings">
      <p>
        What the analysis notices about a test. Some add to the standard uncertainty: a shift of known sign counts
        whole, so that the interval still holds the truth at least 95 times in 100, whatever else is in the budget (with
        8 degrees of freedom, GUM G.4.2). Others only tell what to do better. What to do next time is common practice,
        without a source.
      </p>
      <Folded words={`All ${FINDING_CODES.length} findings`}>
        <dl class="entries">
          {FINDING_CODES.map((code) => {
            const { raisedBy, adds } = FINDING_MEANINGS[code];
            return (
              <>
                <dt id={`finding-${code}`}>
                  <b>{FINDING_WORDS[code].name}</b> <code>{code}</code>
                </dt>
                <dd>
                  {raisedBy} {adds ? `Adds ${adds}. ` : null}
                  {`Its value: ${valueWords(code)}. `}
                  <span class="next">Next time: {FINDING_WORDS[code].next}</span>
                </dd>
              </>
            );
          })}
        </dl>
      </Folded>
    </Part>
  );
}

/** Every refusal: why there is no number, and what would give one. */
export function RefusalsPart() {
  return (
    <Part id="refusals" title="Refusals">
      <p>
        Where a log cannot tell a rate, none is made up. A test that gives no rate in any band is not stored; one that
        gives some keeps the reasons for the others.
      </p>
      <Folded words={`All ${Object.keys(REFUSAL_CODES).length} refusals`}>
        <dl class="entries">
          {(Object.keys(REFUSAL_CODES) as RefusalCode[]).map((code) => (
            <>
              <dt id={`refusal-${code}`}>
                <code>{code}</code>
              </dt>
              <dd>
                {`${REFUSAL_CODES[code][0]!.toUpperCase()}${REFUSAL_CODES[code].slice(1)}. `}
                <span class="next">{REFUSAL_REMEDIES[code]}</span>
              </dd>
            </>
          ))}
        </dl>
      </Folded>
    </Part>
  );
}
